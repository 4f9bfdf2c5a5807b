/**
 * Checks whether comparisons and predictions are right as stated. Whole burns are simulated, measured with errors that
 * are shared as in reality, analysed, compared and used for predictions; the truth is known exactly. A claim holds when
 * the count is inside the exact binomial 99 % band of its nominal rate. With few burns and no shared errors Welch's
 * interval covers more than 95 %; how much more is drawn in the same run, and the far end of a band is that of the
 * share so found.
 */
import { binomialBand } from '../../shared/statistics/binomial.ts';
import type { Study } from '../tools/study.ts';
import { makeBank } from './comparison/burn-bank.ts';
import { foretold, type LoadOutcome, predictLoads } from './comparison/other-loads.ts';
import { comparePairs, type PairDesign, type PairOutcome } from './comparison/revision-pairs.ts';
import { welchHolds } from './comparison/welch-alone.ts';

const CONFIDENCE = 0.99;
const LARGEST_TIME_ERROR = 0.08;
const CLAIMED = ['time', 'wood', 'batch'] as const;

const designs: PairDesign[] = [
  { lots: 1, scales: 1 },
  { lots: 1, scales: 2 },
  { lots: 2, scales: 1 },
  { lots: 2, scales: 2 },
];

/** Claims that a comparison's counts refute. */
export function pairClaims({ burns, lots, scales, pairs, samePairs, held, falseAlarms }: PairOutcome): string[] {
  const what = `${burns} burns of each, ${lots} lot(s), ${scales} scale(s)`;
  const highest = Math.max(0.95, welchHolds(burns));
  const { low } = binomialBand(pairs, 0.95, CONFIDENCE);
  const { high } = binomialBand(pairs, highest, CONFIDENCE);
  const alarms = {
    low: binomialBand(samePairs, 1 - highest, CONFIDENCE).low,
    high: binomialBand(samePairs, 0.05, CONFIDENCE).high,
  };
  return [
    ...(held < low || held > high ? [`${what}: ${held} of ${pairs} intervals held, outside ${low} to ${high}`] : []),
    ...(falseAlarms < alarms.low || falseAlarms > alarms.high
      ? [`${what}: ${falseAlarms} of ${samePairs} false alarms, outside ${alarms.low} to ${alarms.high}`]
      : []),
  ];
}

/**
 * Claims that a prediction's counts refute. Intervals may cover more than 90 %, not less; that of the whole batch's
 * wood neither more nor less where the load is that of the burns: transferred to another load, it includes an allowance
 * for the error of the transfer. The wood of the hold alone is in the table without a claim: it is based on an
 * assumption about embers whose error is the same in every burn of a stove.
 */
export function loadClaims({ fromKg, toKg, burns, outcomes, timeScatter }: LoadOutcome): string[] {
  const what = `${burns} burns at ${fromKg} kg for ${toKg} kg`;
  const { medianError } = outcomes.time;
  return [
    ...CLAIMED.flatMap((name) => {
      const { trials, held } = outcomes[name];
      const { low, high } = binomialBand(trials, 0.9, CONFIDENCE);
      const most = name === 'batch' && fromKg === toKg ? high : trials;
      return held < low || held > most
        ? [`${what}, ${name}: ${held} of ${trials} held, outside ${low} to ${most}`]
        : [];
    }),
    ...(medianError > LARGEST_TIME_ERROR + timeScatter
      ? [`${what}: median error of time ${(100 * medianError).toFixed(1)} % beyond 8 % plus the scatter`]
      : []),
  ];
}

const study: Study = ({ quick }) => {
  const [pairs, trials, bankSize] = quick ? [60, 60, 60] : [1000, 400, 200];
  const first = makeBank({ revision: '1', count: bankSize, seed: 'revision 1' });
  const second = makeBank({ revision: '2', count: bankSize, seed: 'revision 2' });
  const compared = designs.flatMap((design) => comparePairs(first, second, design, [3, 4, 6], pairs));
  const others = [17.4, 29, 40.6].map((waterKg) =>
    makeBank({ revision: '1', count: bankSize, waterKg, holdS: 0, seed: `no hold ${waterKg}` }),
  );
  const held = [17.4, 40.6].map((waterKg) =>
    makeBank({ revision: '1', count: bankSize, waterKg, seed: `held ${waterKg}` }),
  );
  const predicted = [
    ...others.flatMap((bank) => [3, 5].map((burns) => predictLoads(first, bank, burns, trials))),
    ...[first, ...held].flatMap((bank) => [3, 4, 5].map((burns) => predictLoads(first, bank, burns, trials))),
  ];
  return {
    tables: [
      {
        title: 'two revisions compared on dry wood per batch (95 % wanted; 5 % false alarms)',
        columns: ['burns', 'lots', 'scales', 'pairs', 'held %', 'Welch alone %', 'false alarms %', 'half-width %'],
        rows: compared.map((o) => [
          o.burns,
          o.lots,
          o.scales,
          o.pairs,
          (100 * o.held) / o.pairs,
          100 * welchHolds(o.burns),
          (100 * o.falseAlarms) / o.samePairs,
          100 * o.halfWidth,
        ]),
      },
      {
        title: 'new burns predicted, at the same load and at others (90 % wanted, or more)',
        columns: ['from kg', 'to kg', 'burns', 'what', 'trials', 'held %', 'median error %', 'rms error %', 'width %'],
        rows: predicted.flatMap(({ fromKg, toKg, burns, outcomes }) =>
          foretold.flatMap((name) => {
            const { trials: count, held: inside, medianError, rmsError, meanWidth } = outcomes[name];
            if (count === 0) return [];
            const percents = [inside / count, medianError, rmsError, meanWidth].map((share) => 100 * share);
            return [[fromKg, toKg, burns, name, count, ...percents]];
          }),
        ),
      },
    ],
    refuted: [...compared.flatMap(pairClaims), ...predicted.flatMap(loadClaims)],
  };
};

export default study;

/** How well burns predict new ones, at their own load and at another. */
import type { SimulatedBurn } from '../../../server/simulator/simulate-burn.ts';
import type { BurnTruth } from '../../../server/simulator/truth.ts';
import { predictFromRecords } from '../../../shared/comparison/prediction/predict-from-records.ts';
import type { Predicted, Prediction } from '../../../shared/contract/prediction.ts';
import { mean, standardDeviation } from '../../../shared/statistics/moments.ts';
import { median } from '../../../shared/statistics/quantile.ts';
import { createRandom } from '../../../shared/statistics/random.ts';
import { measured } from './burn-bank.ts';

/** The prediction of a quantity for a new burn, and its true value. */
const quantities = {
  time: { of: 'timeToTarget', truth: ({ timeToTarget }: BurnTruth) => timeToTarget },
  wood: { of: 'dryWoodToTarget', truth: (truth: BurnTruth) => truth.equivalentDryFuel! * (1 - holdShare(truth)) },
  hold: { of: 'dryWoodForHold', truth: (truth: BurnTruth) => truth.equivalentDryFuel! * holdShare(truth) },
  batch: { of: 'dryWoodForBatch', truth: ({ dryWoodPerBatch }: BurnTruth) => dryWoodPerBatch },
} as const satisfies Record<string, { of: keyof Prediction; truth: (truth: BurnTruth) => number | undefined }>;
export type Foretold = keyof typeof quantities;
export const foretold = Object.keys(quantities) as Foretold[];

/** The predictions of one quantity, over all trials. */
export interface Outcome {
  readonly trials: number;
  /** 90 % intervals that contained the new burn's own value. */
  readonly held: number;
  /** Of the logarithm: median absolute and root mean square error, and mean width of the interval. */
  readonly medianError: number;
  readonly rmsError: number;
  readonly meanWidth: number;
}

export interface LoadOutcome {
  readonly fromKg: number;
  readonly toKg: number;
  readonly burns: number;
  readonly outcomes: Readonly<Record<Foretold, Outcome>>;
  /** Scatter of the times of the new burns themselves. */
  readonly timeScatter: number;
}

/**
 * Share of the wood that burns in the hold, by the exact turn-down ratio; zero where the fire was raked at the target.
 */
function holdShare({ turnDownRatio, moments: { lit, target, holdStart, holdEnd } }: BurnTruth): number {
  if (turnDownRatio === undefined || target === undefined || holdStart === undefined || holdEnd === undefined) return 0;
  const up = turnDownRatio * (target - lit);
  return (holdEnd - holdStart) / (up + holdEnd - holdStart);
}

/**
 * Predicts new burns from groups of old ones.
 * @param oldBurns bank to learn from
 * @param newBurns bank at the other load, with holds as long as planned; the same bank, where the load is the same
 */
export function predictLoads(
  oldBurns: readonly SimulatedBurn[],
  newBurns: readonly SimulatedBurn[],
  burns: number,
  trials: number,
): LoadOutcome {
  const [fromKg, toKg] = [oldBurns, newBurns].map((bank) => Math.round(bank[0]!.scenario.load.waterKg)) as [
    number,
    number,
  ];
  const seen = Object.fromEntries(foretold.map((name) => [name, [] as Seen[]])) as Record<Foretold, Seen[]>;
  for (let trial = 0; trial < trials; trial++) {
    const studySeed = `${fromKg} to ${toKg} kg, ${burns} burns, trial ${trial}`;
    const random = createRandom(studySeed);
    const fresh = newBurns[Math.floor(random.uniform() * newBurns.length)]!;
    // A burn is not used to predict itself.
    const others = oldBurns.filter((burn) => burn !== fresh);
    const learnt = Array.from({ length: burns }, (_, index) =>
      measured(others[Math.floor(random.uniform() * others.length)]!, '1', {
        lot: 'lot',
        scale: 'scale',
        burn: `old ${index}`,
        day: index,
        studySeed,
      }),
    );
    const { scenario, truth } = fresh;
    const { holdS } = scenario.plan;
    const prediction = predictFromRecords(learnt, {
      waterKg: scenario.load.waterKg,
      startTempC: scenario.load.startTempC,
      airTempC: scenario.place.airTempC,
      ...(holdS > 0 && { holdDurationS: holdS }),
    });
    for (const name of foretold) {
      const { of, truth: trueOf } = quantities[name];
      const found = seenOf(prediction[of], trueOf(truth));
      if (found) seen[name].push(found);
    }
  }
  return {
    fromKg,
    toKg,
    burns,
    outcomes: Object.fromEntries(foretold.map((name) => [name, outcomeOf(seen[name])])) as Record<Foretold, Outcome>,
    timeScatter: standardDeviation(newBurns.map(({ truth }) => Math.log(truth.timeToTarget!))),
  };
}

interface Seen {
  readonly error: number;
  readonly width: number;
  readonly isHeld: boolean;
}

function seenOf(predicted: Predicted, truth: number | undefined): Seen | undefined {
  if ('missing' in predicted || !truth) return undefined;
  const { value, interval90 } = predicted;
  const [low, high] = interval90;
  return { error: Math.log(truth / value), width: Math.log(high / low), isHeld: low <= truth && truth <= high };
}

function outcomeOf(seen: readonly Seen[]): Outcome {
  if (seen.length === 0) return { trials: 0, held: 0, medianError: 0, rmsError: 0, meanWidth: 0 };
  return {
    trials: seen.length,
    held: seen.filter(({ isHeld }) => isHeld).length,
    medianError: median(Float64Array.from(seen, ({ error }) => Math.abs(error))),
    rmsError: Math.sqrt(mean(seen.map(({ error }) => error ** 2))),
    meanWidth: mean(seen.map(({ width }) => width)),
  };
}

/**
 * Checks whether verdicts keep their error rates when a person looks repeatedly, burns several batches a day, climbs a
 * ladder of revisions and reads a dozen results. Days are drawn as numbers, the truth is known, and the plain rule
 * (Welch's 95 %, every burn a replicate) is shown next to ours.
 */
import { binomialBand } from '../../shared/statistics/binomial.ts';
import type { Study } from '../tools/study.ts';
import { type FalseVerdicts, falseVerdicts } from './looks/false-verdicts.ts';
import { heightEffects, twelveResults } from './looks/other-promises.ts';
import type { Design, Lots } from './looks/simulated-days.ts';
import { type Ladders, ladderOfTwo, type TwoRevisions, wholeLadders } from './looks/whole-ladders.ts';

const CONFIDENCE = 0.99;
/** Probability of any false verdict at all looks together, by the ratio of the two scatters. */
const MOST_FALSE: Readonly<Record<number, number>> = { 1: 0.055, 2: 0.065 };

/** Claims that the counts of false verdicts refute. */
export function lookClaims(outcomes: readonly FalseVerdicts[]): string[] {
  return outcomes.flatMap(({ rule, untilClear, batches, planned, ratio, lots, dayScatter }) => {
    const { high } = binomialBand(batches, MOST_FALSE[ratio]!, CONFIDENCE);
    const what = `${planned} days, ${lots} lots, day scatter ${100 * dayScatter} %, scatters 1:${ratio}`;
    return [
      ...(rule > high ? [`${what}: ${rule} of ${batches} false verdicts, more than ${high}`] : []),
      ...(untilClear > high ? [`${what}, until clear: ${untilClear} of ${batches} false, more than ${high}`] : []),
    ];
  });
}

/** Claims that the counts of whole ladders refute: all steps at once in 95 %, the best kept in 95 %. */
export function ladderClaims(outcomes: readonly Ladders[]): string[] {
  return outcomes.flatMap(({ ladderHeld, bestChosen, ladders, revisions, days, lots, ratio }) => {
    const { low } = binomialBand(ladders, ratio === 1 ? 0.945 : 0.92, CONFIDENCE);
    const what = `${revisions} revisions, ${days} days, ${lots} lots, scatters 1:${ratio}`;
    return [
      ...(ladderHeld < low ? [`${what}: all steps held in ${ladderHeld} of ${ladders}, fewer than ${low}`] : []),
      ...(bestChosen < low ? [`${what}: the best was kept in ${bestChosen} of ${ladders}, fewer than ${low}`] : []),
    ];
  });
}

/** A ladder of two gives a verdict as often as Welch: within 2 points from three days each, 1 from five. */
export function twoRevisionClaims(outcomes: readonly TwoRevisions[]): string[] {
  return outcomes.flatMap(({ days, difference, batches, welch, ladder }) => {
    const points = (100 * Math.abs(ladder - welch)) / batches;
    const most = days < 5 ? 2 : 1;
    return points > most
      ? [`${days} days, ${100 * difference} %: ${points.toFixed(1)} points apart, over ${most}`]
      : [];
  });
}

export const lotKinds: readonly Lots[] = ['crossed', 'inTurn', 'nested'];

const study: Study = ({ quick }) => {
  const batches = quick ? 200 : 2000;
  const designs = [0, 0.03, 0.06].flatMap((dayScatter) =>
    lotKinds.flatMap((lots) =>
      [1, 2].map((ratio): Design => ({ lots, dayScatter, burnScatter: 0.05, burnsADay: 2, ratio })),
    ),
  );
  // With separate lots for each revision the share is nearest to the limit: there it is counted more exactly, and from
  // two days as well.
  const often = quick ? batches : 40_000;
  const nested = designs.filter(({ lots }) => lots === 'nested');
  const looks = [
    ...designs.map((design) => falseVerdicts(design, 4, 8, nested.includes(design) ? often : batches)),
    ...nested.map((design) => falseVerdicts(design, 2, 8, batches)),
  ];
  const ladders = lotKinds.flatMap((lots) =>
    [1, 2].flatMap((ratio) =>
      [3, 5].map((days) =>
        wholeLadders({ lots, dayScatter: 0.03, burnScatter: 0.05, burnsADay: 1, ratio }, 5, days, batches, 0.04),
      ),
    ),
  );
  const two = [3, 4, 5, 7, 10].flatMap((days) => [0, 0.1].map((difference) => ladderOfTwo(days, difference, batches)));
  const others = [3, 5].flatMap((days) => [0, 0.5].map((alike) => ({ alike, ...twelveResults(days, alike, batches) })));
  const effects = [5, 6, 8].map((revisions) => heightEffects(revisions, batches));
  const share = (count: number, of: number) => (100 * count) / of;
  return {
    tables: [
      {
        title:
          'two equal revisions, two burns a day, looked at after each pair of days from 2 to 8 (false verdicts, %)',
        columns: [
          'days said',
          'day scatter %',
          'lots',
          'scatters',
          'batches',
          'plain, once',
          'plain, every look',
          'rule',
          'until clear',
        ],
        rows: looks.map((o) => [
          o.planned,
          100 * o.dayScatter,
          o.lots,
          `1:${o.ratio}`,
          o.batches,
          share(o.plainOnce, o.batches),
          share(o.plainAlways, o.batches),
          share(o.rule, o.batches),
          share(o.untilClear, o.batches),
        ]),
      },
      {
        title: 'ladders of five revisions, 4 % a step (all steps at once, and the best kept: 95 % wanted)',
        columns: [
          'days',
          'lots',
          'scatters',
          'ladders',
          'plain, all held %',
          'ladder, all held %',
          'best kept %',
          'in the running',
        ],
        rows: ladders.map((o) => [
          o.days,
          o.lots,
          `1:${o.ratio}`,
          o.ladders,
          share(o.plainHeld, o.ladders),
          share(o.ladderHeld, o.ladders),
          share(o.bestChosen, o.ladders),
          o.inRunning,
        ]),
      },
      {
        title: 'two revisions at the planned number of days (batches with a verdict, %)',
        columns: ['days', 'true difference %', 'batches', 'Welch', 'ladder of two', 'were it pooled'],
        rows: two.map((o) => [
          o.days,
          100 * o.difference,
          o.batches,
          share(o.welch, o.batches),
          share(o.ladder, o.batches),
          share(o.pooled, o.batches),
        ]),
      },
      {
        title: 'twelve other results of two equal revisions (at least one differs, %)',
        columns: ['days', 'scatter in common %', 'batches', 'at 95 % each', 'stands out among 12'],
        rows: others.map((o) => [
          o.days,
          100 * o.alike,
          o.batches,
          share(o.plain, o.batches),
          share(o.standingOut, o.batches),
        ]),
      },
      {
        title: 'effect of a height, revisions differing by 3 % in other ways (95 % intervals that held it, %)',
        columns: ['revisions', 'trials', 'burns as replicates', 'revisions as replicates'],
        rows: effects.map((o) => [
          o.revisions,
          o.trials,
          share(o.burnsHeld, o.trials),
          share(o.revisionsHeld, o.trials),
        ]),
      },
    ],
    refuted: [...lookClaims(looks), ...ladderClaims(ladders), ...twoRevisionClaims(two)],
  };
};

export default study;

/**
 * How often the interval for the difference of two revisions contains the true one, and how often two equal revisions
 * get a verdict of different.
 */
import type { HeronRevision } from '../../../server/simulator/heron-setup.ts';
import type { SimulatedBurn } from '../../../server/simulator/simulate-burn.ts';
import { compareRevisions } from '../../../shared/comparison/compare-revisions.ts';
import type { ComparedBurn } from '../../../shared/comparison/compared-burn.ts';
import type { Difference } from '../../../shared/contract/comparison.ts';
import { mean } from '../../../shared/statistics/moments.ts';
import { createRandom } from '../../../shared/statistics/random.ts';
import { measured } from './burn-bank.ts';

/** Whether both revisions were burnt with wood of one lot and weighed on one scale, or each with its own. */
export interface PairDesign {
  lots: 1 | 2;
  scales: 1 | 2;
}

export interface PairOutcome extends PairDesign {
  /** Burns of each revision. */
  burns: number;
  /** Comparisons of different revisions, and of one revision with itself, that gave a number. */
  pairs: number;
  samePairs: number;
  /** Intervals that contained the true ratio, between two different revisions. */
  held: number;
  /** Verdicts of better or worse between two groups of burns of one revision. */
  falseAlarms: number;
  /** Mean half-width of the interval, relative. */
  halfWidth: number;
}

/**
 * Draws pairs of groups and compares them on dry wood per batch. Groups of several sizes share their burns within a
 * pair.
 * @param a bank of the one revision, `b` of the other; the truth of both is known to the last gram
 */
export function comparePairs(
  a: readonly SimulatedBurn[],
  b: readonly SimulatedBurn[],
  design: PairDesign,
  sizes: readonly number[],
  pairs: number,
  seed = 'pairs',
): PairOutcome[] {
  const level = (bank: readonly SimulatedBurn[]) => mean(bank.map(({ truth }) => Math.log(truth.dryWoodPerBatch!)));
  const trueRelative = Math.expm1(level(b) - level(a));
  const outcomes = sizes.map((burns): PairOutcome => {
    return { ...design, burns, pairs: 0, samePairs: 0, held: 0, falseAlarms: 0, halfWidth: 0 };
  });
  const most = Math.max(...sizes);
  for (let pair = 0; pair < pairs; pair++) {
    const drawGroup = groupsOfPair(design, most, `${seed} ${pair}`);
    const first = drawGroup(a, '1', 'a', 'M');
    const second = drawGroup(b, '2', 'b', 'R');
    const again = drawGroup(a, '1', 'b', 'again');
    for (const outcome of outcomes) {
      const different = difference(first, second, outcome.burns);
      if (different) {
        const [low, high] = different.relativeInterval95;
        outcome.pairs += 1;
        outcome.halfWidth += (high - low) / 2;
        if (low <= trueRelative && trueRelative <= high) outcome.held += 1;
      }
      const same = difference(first, again, outcome.burns);
      if (same) {
        outcome.samePairs += 1;
        if (same.verdict !== 'cannotTell') outcome.falseAlarms += 1;
      }
    }
  }
  return outcomes.map((outcome) => ({ ...outcome, halfWidth: outcome.halfWidth / Math.max(1, outcome.pairs) }));
}

function groupsOfPair({ lots, scales }: PairDesign, burns: number, pair: string) {
  const studySeed = `${lots} lots, ${scales} scales, pair ${pair}`;
  const random = createRandom(studySeed);
  return (bank: readonly SimulatedBurn[], revision: HeronRevision, side: 'a' | 'b', group: string): ComparedBurn[] =>
    Array.from({ length: burns }, (_, index) => {
      const { record, analysis } = measured(bank[Math.floor(random.uniform() * bank.length)]!, revision, {
        lot: lots === 1 ? 'lot' : `lot ${side}`,
        scale: scales === 1 ? 'scale' : `scale ${side}`,
        burn: `${group} ${index}`,
        day: 2 * index + (side === 'a' ? 0 : 1),
        studySeed,
      });
      return { burn: record, analysis };
    });
}

function difference(a: readonly ComparedBurn[], b: readonly ComparedBurn[], burns: number): Difference | undefined {
  const first = compareRevisions(a.slice(0, burns), b.slice(0, burns), { plannedDays: burns }).differences[0]!;
  // A bench whose probes read too low never detects the boil: no result, so no comparison.
  return 'missing' in first ? undefined : first;
}

/** Computes how many more days would decide a comparison, and which measurement contributes most to its uncertainty. */
import { standardDeviationInterval } from '../statistics/chi-square.ts';
import { noncentralTCdf } from '../statistics/noncentral-t.ts';
import { coverageFactor } from '../statistics/student-t.ts';
import { type PooledVariance, pooledVariance } from '../statistics/within-groups.ts';
import { type ComparedResult, sharesOf } from './compare-result.ts';
import { effectiveFreedom, halfWidthOf, type VarianceParts } from './mean-difference.ts';

const POWER = 0.8;
const SIGNIFICANCE = 0.05;
/** Confidence of the interval for the scatter from which the range of days follows. */
const SCATTER_COVERAGE = 0.8;
const MOST_FURTHER_DAYS = 200;

/** Further days of each revision. An end of the range is left out where two hundred days are not enough. */
export interface FurtherDays {
  low?: number;
  likely?: number;
  high?: number;
}

/**
 * Returns the inputs for the number of further days of each revision. Days are planned as two groups with their present
 * shared errors, with the limits of the look they lead to.
 * @param worthKnowing relative difference to be found, above 0
 * @param steps of the ladder, among which the share of wrong verdicts is divided
 * @returns undefined where no mean was compared
 */
export function daysAsked(result: ComparedResult, worthKnowing: number, steps = 1): DaysAsked | undefined {
  const { a, b } = result.days;
  const scatter = pooledVariance([a, b].map((group) => group.map(({ value }) => value)));
  if (!result.statistics || !scatter) return undefined;
  const difference =
    result.scale.scale === 'ratio' ? Math.log1p(worthKnowing) : worthKnowing * Math.abs(result.figures.a);
  const { sharedVariance } = result.statistics;
  const { kind } = result.look;
  const everyLook = (more: number) => kind !== 'before' && (kind !== 'planned' || more > 0);
  return { counts: [a.length, b.length], scatter, sharedVariance, difference, steps, everyLook };
}

/** The inputs for a number of days. */
export interface DaysAsked {
  /** Present number of days of each revision. */
  counts: readonly [number, number];
  /** Scatter from day to day, on the comparing scale. */
  scatter: PooledVariance;
  /** Variance of the difference from errors that more days do not reduce. */
  sharedVariance: number;
  /** The difference to be found, on the comparing scale. */
  difference: number;
  steps: number;
  /** Whether limits that hold at every look apply after so many further days; those of one look when left out. */
  everyLook?: (more: number) => boolean;
}

/**
 * Returns the further days of each revision with which a true difference would be found with 80 % power, as a range
 * because the scatter itself is known from few days only: at the lower end of its interval, its estimate and its upper
 * end.
 */
export function daysFor(asked: DaysAsked): FurtherDays {
  const { variance, degreesOfFreedom } = asked.scatter;
  const pooled = Math.sqrt(variance);
  const [small, large] = standardDeviationInterval(pooled, degreesOfFreedom, SCATTER_COVERAGE);
  const [low, likely, high] = [small, pooled, large].map((scatter) => smallestAddition(asked, scatter));
  return {
    ...(low === undefined ? {} : { low }),
    ...(likely === undefined ? {} : { likely }),
    ...(high === undefined ? {} : { high }),
  };
}

/**
 * Whether the difference would not be found with 80 % power even without any scatter between days: errors that no
 * number of days reduces hide it.
 */
export function isHiddenByShared({ sharedVariance, difference, steps }: DaysAsked): boolean {
  if (sharedVariance === 0) return false;
  const critical = coverageFactor(1 - SIGNIFICANCE / steps, Infinity);
  return 1 - noncentralTCdf(critical, Infinity, difference / Math.sqrt(sharedVariance)) < POWER;
}

function smallestAddition(asked: DaysAsked, scatter: number) {
  const [a, b] = asked.counts;
  const reached = (more: number) =>
    Math.min(a, b) + more >= 2 &&
    powerWith([a + more, b + more], scatter, asked, asked.everyLook?.(more) ?? false) >= POWER;
  if (!reached(MOST_FURTHER_DAYS)) return undefined;
  let low = -1;
  let high = MOST_FURTHER_DAYS;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (middle >= 0 && reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}

function powerWith(
  [countA, countB]: readonly [number, number],
  scatter: number,
  { sharedVariance, difference, steps }: DaysAsked,
  everyLook: boolean,
): number {
  const [partA, partB] = [scatter ** 2 / countA, scatter ** 2 / countB];
  const total = partA + partB + sharedVariance;
  if (total === 0) return 1;
  const parts: VarianceParts = {
    scatter: [
      { source: 'scatterA', variance: partA, degreesOfFreedom: countA - 1 },
      { source: 'scatterB', variance: partB, degreesOfFreedom: countB - 1 },
    ],
    sharedVariance,
    pooled: {
      variance: partA + partB,
      degreesOfFreedom: countA + countB - 2,
      pairs: 1 / (1 / countA + 1 / countB),
    },
  };
  const level = { outside: SIGNIFICANCE / steps, looks: everyLook ? 'every' : 'planned' } as const;
  const critical = halfWidthOf(parts, level) / Math.sqrt(total);
  const freedom = effectiveFreedom(parts.scatter, sharedVariance);
  if (critical === Infinity) return 0;
  return 1 - noncentralTCdf(critical, freedom, difference / Math.sqrt(total));
}

/**
 * The largest component of the uncertainty: "scatter", or the input whose shared error does not cancel between the
 * revisions.
 */
export function largestDoubt(result: ComparedResult): { source: string; share: number } | undefined {
  if (!result.statistics) return undefined;
  const shares = sharesOf(result.statistics);
  const scatter = shares
    .filter(({ source }) => source.startsWith('scatter'))
    .reduce((sum, { share }) => sum + share, 0);
  const input = shares.find(({ source }) => !source.startsWith('scatter'));
  if (input && input.share > scatter) return input;
  return shares.length > 0 ? { source: 'scatter', share: scatter } : undefined;
}

/**
 * The largest component that more days do not reduce: the input whose shared error does not cancel between the
 * revisions.
 */
export function largestSharedDoubt(result: ComparedResult): { source: string; share: number } | undefined {
  return result.statistics && sharesOf(result.statistics).find(({ source }) => !source.startsWith('scatter'));
}

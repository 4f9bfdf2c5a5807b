/** Comparison of two means by Student's t: unequal spreads (Welch), equal spreads (pooled), or in pairs. */
import { mean, variance } from './moments.ts';
import { coverageFactor, studentTCdf } from './student-t.ts';

type Values = ArrayLike<number>;

/** What is needed of a sample: how many values, their mean and their standard deviation with n − 1. */
export interface SampleSummary {
  count: number;
  mean: number;
  standardDeviation: number;
}

/** The difference of two means, first minus second. */
export interface MeanDifference {
  difference: number;
  standardError: number;
  degreesOfFreedom: number;
  /** Difference over standard error. */
  statistic: number;
  /** Probability of a difference at least this large, either way, if the means were equal. */
  pValue: number;
  interval: [low: number, high: number];
}

/**
 * Summary of a sample.
 * @throws RangeError for fewer than two values.
 */
export function summarise(values: Values): SampleSummary {
  return { count: values.length, mean: mean(values), standardDeviation: Math.sqrt(variance(values)) };
}

/**
 * Welch's comparison, which does not assume equal spreads (B. L. Welch, Biometrika 34, 1947). Degrees of freedom are
 * not rounded.
 * @param coverage confidence of the interval
 * @throws RangeError if either sample has fewer than two values or both lack any spread.
 */
export function welchComparison(first: SampleSummary, second: SampleSummary, coverage = 0.95): MeanDifference {
  requireTwo(first, second);
  const firstVariance = first.standardDeviation ** 2 / first.count;
  const secondVariance = second.standardDeviation ** 2 / second.count;
  const degreesOfFreedom =
    (firstVariance + secondVariance) ** 2 /
    (firstVariance ** 2 / (first.count - 1) + secondVariance ** 2 / (second.count - 1));
  return compared(first.mean - second.mean, Math.sqrt(firstVariance + secondVariance), degreesOfFreedom, coverage);
}

/**
 * The comparison that assumes equal spreads (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.3).
 * @param coverage confidence of the interval
 * @throws RangeError if either sample has fewer than two values or both lack any spread.
 */
export function pooledComparison(first: SampleSummary, second: SampleSummary, coverage = 0.95): MeanDifference {
  requireTwo(first, second);
  const degreesOfFreedom = first.count + second.count - 2;
  const pooledVariance =
    ((first.count - 1) * first.standardDeviation ** 2 + (second.count - 1) * second.standardDeviation ** 2) /
    degreesOfFreedom;
  const standardError = Math.sqrt(pooledVariance * (1 / first.count + 1 / second.count));
  return compared(first.mean - second.mean, standardError, degreesOfFreedom, coverage);
}

/**
 * The comparison of pairs, value by value.
 * @param coverage confidence of the interval
 * @throws RangeError for unequal lengths, fewer than two pairs, or differences without any spread.
 */
export function pairedComparison(first: Values, second: Values, coverage = 0.95): MeanDifference {
  if (first.length !== second.length) {
    throw new RangeError(`Pairs need as many first as second values; got ${first.length} and ${second.length}`);
  }
  const differences = summarise(Array.from(first, (value, index) => value - second[index]!));
  const standardError = differences.standardDeviation / Math.sqrt(differences.count);
  return compared(differences.mean, standardError, differences.count - 1, coverage);
}

function compared(
  difference: number,
  standardError: number,
  degreesOfFreedom: number,
  coverage: number,
): MeanDifference {
  if (!(standardError > 0)) throw new RangeError('The values have no spread at all: a t comparison has no meaning');
  const statistic = difference / standardError;
  const half = coverageFactor(coverage, degreesOfFreedom) * standardError;
  return {
    difference,
    standardError,
    degreesOfFreedom,
    statistic,
    pValue: 2 * studentTCdf(-Math.abs(statistic), degreesOfFreedom),
    interval: [difference - half, difference + half],
  };
}

function requireTwo(first: SampleSummary, second: SampleSummary): void {
  if (!(first.count >= 2 && second.count >= 2)) throw new RangeError('Each sample needs at least two values');
}

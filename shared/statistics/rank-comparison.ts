/**
 * Comparison of two samples by ranks, for results such as a longest time that no mean describes.
 *
 * Source: H. B. Mann, D. R. Whitney, Ann. Math. Stat. 18 (1947); J. L. Hodges, E. L. Lehmann, Ann. Math. Stat. 34 (1963);
 * normal approximation with the correction for ties as in M. Hollander, D. A. Wolfe, "Nonparametric Statistical Methods".
 */
import { normalCdf, normalQuantile } from './normal-distribution.ts';
import { median } from './quantile.ts';

type Values = ArrayLike<number>;

/** Above this product of sample sizes, or with ties, the normal approximation is used. */
const LARGEST_EXACT = 900;

/** How much the first sample tends to lie above the second. */
export interface RankComparison {
  /** Number of pairs in which the first value is larger, ties counting one half. */
  statistic: number;
  /** Probability of a statistic at least this far from the middle, either way, if the samples came from one population. */
  pValue: number;
  /** Median of all pairwise differences first − second. */
  shift: number;
  /** Interval for the shift; its ends are infinite when the samples are too small to give one at this confidence. */
  interval: [low: number, high: number];
  /** Whether the distribution of the statistic is exact or approximated by a normal. */
  exact: boolean;
}

/**
 * Mann–Whitney test with the Hodges–Lehmann estimate of the shift.
 * @param coverage least confidence of the interval
 * @throws RangeError if either sample is empty.
 */
export function compareRanks(first: Values, second: Values, coverage = 0.95): RankComparison {
  const pairs = first.length * second.length;
  if (pairs === 0) throw new RangeError('Each sample needs at least one value');
  const differences = pairwiseDifferences(first, second).sort();
  const statistic = differences.reduce((sum, d) => sum + (d > 0 ? 1 : d === 0 ? 0.5 : 0), 0);
  const outside = (1 - coverage) / 2;
  const groups = tieSizes(first, second);
  const exact = pairs <= LARGEST_EXACT && groups.every((size) => size === 1);
  const shift = median(differences);

  if (exact) {
    const cumulative = cumulativeStatistic(first.length, second.length);
    const extreme = Math.min(statistic, pairs - statistic);
    const pValue = Math.min(1, 2 * cumulative[extreme]!);
    const below = cumulative.findIndex((probability) => probability > outside);
    return { statistic, pValue, shift, interval: shiftInterval(differences, below), exact };
  }

  const total = first.length + second.length;
  const tied = groups.reduce((sum, size) => sum + size ** 3 - size, 0);
  const deviation = Math.sqrt((pairs / 12) * (total + 1 - tied / (total * (total - 1))));
  const distance = Math.max(0, Math.abs(statistic - pairs / 2) - 0.5);
  const pValue = deviation === 0 ? 1 : Math.min(1, 2 * normalCdf(-distance / deviation));
  const below = Math.max(0, Math.floor(pairs / 2 + normalQuantile(outside) * deviation));
  return { statistic, pValue, shift, interval: shiftInterval(differences, below), exact };
}

/** The differences left after cutting the same number at both ends. */
function shiftInterval(sorted: Float64Array, below: number): [number, number] {
  return below === 0 ? [-Infinity, Infinity] : [sorted[below - 1]!, sorted[sorted.length - below]!];
}

function pairwiseDifferences(first: Values, second: Values): Float64Array {
  const differences = new Float64Array(first.length * second.length);
  let index = 0;
  for (let i = 0; i < first.length; i++) {
    for (let j = 0; j < second.length; j++) differences[index++] = first[i]! - second[j]!;
  }
  return differences;
}

function tieSizes(first: Values, second: Values): number[] {
  const sizes = new Map<number, number>();
  for (const value of [...Array.from(first), ...Array.from(second)]) sizes.set(value, (sizes.get(value) ?? 0) + 1);
  return [...sizes.values()];
}

/**
 * P(U ≤ u) for u = 0 to m·n by the recurrence over the sizes: arrangements of m and n end with a value of the first sample,
 * which lies above all n of the second, or with one of the second, which lies above none.
 */
function cumulativeStatistic(m: number, n: number): Float64Array {
  const distributions: Float64Array[] = Array.from({ length: n + 1 }, () => Float64Array.of(1));
  for (let i = 1; i <= m; i++) {
    for (let j = 1; j <= n; j++) {
      const firstLast = distributions[j]!;
      const secondLast = distributions[j - 1]!;
      const mixed = new Float64Array(i * j + 1);
      for (let u = 0; u < firstLast.length; u++) mixed[u + j] = (firstLast[u]! * i) / (i + j);
      for (let u = 0; u < secondLast.length; u++) mixed[u]! += (secondLast[u]! * j) / (i + j);
      distributions[j] = mixed;
    }
  }
  let sum = 0;
  return distributions[n]!.map((probability) => {
    sum += probability;
    return sum;
  });
}

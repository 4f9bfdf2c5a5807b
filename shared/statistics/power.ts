/**
 * How likely a t comparison is to find a true difference, and how many values it takes.
 *
 * Source: the noncentral t distribution, counting only the detection of the difference in its true direction, as the power
 * calculation of R's stats package does.
 */
import { standardDeviationInterval } from './chi-square.ts';
import { noncentralTCdf } from './noncentral-t.ts';
import { studentTQuantile } from './student-t.ts';

/** Two separate groups of equal size, or pairs. */
export type Design = 'twoSample' | 'paired';

const LARGEST_COUNT = 1e6;

/**
 * Power of a two-sided t test.
 * @param count values per group, or pairs; at least 2, need not be whole
 * @param difference true difference of the means
 * @param standardDeviation true scatter within a group, or of the differences within pairs
 * @param significance level of the test, both sides together
 * @throws RangeError for a count below 2 or a scatter not positive.
 */
export function power(
  design: Design,
  count: number,
  difference: number,
  standardDeviation: number,
  significance = 0.05,
): number {
  if (!(count >= 2 && standardDeviation > 0)) {
    throw new RangeError(
      `Power needs at least two values a group and a positive scatter; got ${count}, ${standardDeviation}`,
    );
  }
  const groups = design === 'twoSample' ? 2 : 1;
  const degreesOfFreedom = groups * (count - 1);
  const noncentrality = (Math.abs(difference) / standardDeviation) * Math.sqrt(count / groups);
  const critical = -studentTQuantile(significance / 2, degreesOfFreedom);
  return 1 - noncentralTCdf(critical, degreesOfFreedom, noncentrality);
}

/**
 * Number of values per group (or of pairs) at which the power is reached, not rounded up; Infinity for no difference,
 * or when a million values do not reach it.
 * @param wantedPower above the significance and below 1
 * @throws RangeError for a power outside that range or a scatter not positive.
 */
export function sampleSize(
  design: Design,
  wantedPower: number,
  difference: number,
  standardDeviation: number,
  significance = 0.05,
): number {
  if (!(wantedPower > significance && wantedPower < 1)) {
    throw new RangeError(`The wanted power must lie between ${significance} and 1; got ${wantedPower}`);
  }
  const reached = (count: number) => power(design, count, difference, standardDeviation, significance) >= wantedPower;
  if (reached(2)) return 2;
  let low = 2;
  let high = 4;
  while (!reached(high)) {
    if (high >= LARGEST_COUNT) return Infinity;
    low = high;
    high *= 2;
  }
  while (high - low > 1e-9 * high) {
    const middle = (low + high) / 2;
    if (reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Whole number of values per group needed, as a range, because the scatter itself is only known from few values: from the
 * lower end of its interval, from the estimate, and from the upper end.
 * @param scatterFreedom degrees of freedom behind the estimated scatter
 * @param scatterCoverage confidence of the interval for the scatter
 * @throws RangeError as sampleSize, or unless the degrees of freedom are positive.
 */
export function sampleSizeRange(
  design: Design,
  wantedPower: number,
  difference: number,
  standardDeviation: number,
  scatterFreedom: number,
  scatterCoverage = 0.8,
): { low: number; likely: number; high: number } {
  const [small, large] = standardDeviationInterval(standardDeviation, scatterFreedom, scatterCoverage);
  const [low, likely, high] = [small, standardDeviation, large].map((scatter) =>
    Math.ceil(sampleSize(design, wantedPower, difference, scatter)),
  ) as [number, number, number];
  return { low, likely, high };
}

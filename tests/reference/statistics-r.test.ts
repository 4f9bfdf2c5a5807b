/** Outputs of R (stats package) on its own documented examples. */
import { describe, expect, test } from 'vitest';
import { power, sampleSize } from '../../shared/statistics/power.ts';
import { compareRanks } from '../../shared/statistics/rank-comparison.ts';
import { pairedComparison, pooledComparison, summarise, welchComparison } from '../../shared/statistics/two-samples.ts';

describe('the sleep data (extra hours of sleep of ten people on two drugs)', () => {
  const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
  const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

  test('t.test(extra ~ group): Welch', () => {
    const result = welchComparison(summarise(first), summarise(second));
    expect(result.statistic).toBeCloseTo(-1.8608, 4);
    expect(result.degreesOfFreedom).toBeCloseTo(17.776, 3);
    expect(result.pValue).toBeCloseTo(0.07939, 5);
    expect(result.interval[0]).toBeCloseTo(-3.3654832, 7);
    expect(result.interval[1]).toBeCloseTo(0.2054832, 7);
  });

  test('t.test(…, var.equal = TRUE): pooled', () => {
    const result = pooledComparison(summarise(first), summarise(second));
    expect(result.degreesOfFreedom).toBe(18);
    expect(result.pValue).toBeCloseTo(0.07919, 5);
    expect(result.interval[0]).toBeCloseTo(-3.363874, 6);
    expect(result.interval[1]).toBeCloseTo(0.203874, 6);
  });

  test('t.test(…, paired = TRUE)', () => {
    const result = pairedComparison(first, second);
    expect(result.statistic).toBeCloseTo(-4.0621, 4);
    expect(result.degreesOfFreedom).toBe(9);
    expect(result.pValue).toBeCloseTo(0.002833, 6);
  });
});

describe('wilcox.test', () => {
  test('on the permeability data of Hollander & Wolfe (1973), p. 69: W = 35, one-sided p = 0.1272', () => {
    const x = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
    const y = [1.15, 0.88, 0.9, 0.74, 1.21];
    const result = compareRanks(x, y);
    expect(result.exact).toBe(true);
    expect(result.statistic).toBe(35);
    expect(result.pValue / 2).toBeCloseTo(0.1272, 4);
  });
});

describe('power.t.test', () => {
  test('gives the power of a given size', () => {
    expect(power('twoSample', 20, 1, 1)).toBeCloseTo(0.86895280169249778, 9);
    expect(power('twoSample', 4, 1, 1)).toBeCloseTo(0.2224633, 7);
    expect(power('twoSample', 20, 10, 14)).toBeCloseTo(0.5954089, 7);
    expect(power('twoSample', 20, 10, 15)).toBeCloseTo(0.5377573, 7);
  });

  test('gives the size for a given power', () => {
    // R's own root finder stops at about 1e-4 for the printed size.
    expect(sampleSize('twoSample', 0.9, 1, 1)).toBeCloseTo(22.021097703851229, 3);
    expect(sampleSize('twoSample', 0.8, 1, 1)).toBeCloseTo(16.71477, 3);
    expect(sampleSize('twoSample', 0.9, 15, 20)).toBeCloseTo(38.346, 2);
    expect(sampleSize('paired', 0.8, 0.8, 1)).toBeCloseTo(14.302803316243569, 3);
  });
});

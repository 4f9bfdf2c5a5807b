import { describe, expect, test } from 'vitest';
import { effectiveSampleSize, lag1Autocorrelation, mean, variance } from '../../shared/statistics/moments.ts';
import fc from '../support/properties.ts';

const series = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 2, maxLength: 50 });

describe('mean and variance', () => {
  test('shift with an offset and scale with a factor', () => {
    fc.assert(
      fc.property(series, fc.double({ min: -1e6, max: 1e6, noNaN: true }), (values, offset) => {
        const moved = values.map((value) => 2 * value + offset);
        const size = 1 + Math.abs(offset);
        expect(Math.abs(mean(moved) - (2 * mean(values) + offset))).toBeLessThan(1e-9 * size);
        expect(Math.abs(variance(moved) - 4 * variance(values))).toBeLessThan(1e-6 * (1 + variance(values)));
      }),
    );
  });

  test('are refused where they are undefined', () => {
    expect(() => mean([])).toThrow(/at least one/);
    expect(() => variance([1])).toThrow(/at least two/);
    expect(() => lag1Autocorrelation([1])).toThrow(/at least two/);
  });
});

describe('the effective number of values', () => {
  test('is n(1 − ρ)/(1 + ρ) for a positive correlation', () => {
    expect(effectiveSampleSize(300, 0.5)).toBeCloseTo(100, 12);
    expect(effectiveSampleSize(300, 0)).toBe(300);
  });

  test('is never more than the number of values, nor less than one', () => {
    expect(effectiveSampleSize(300, -0.9)).toBe(300);
    expect(effectiveSampleSize(300, 0.9999)).toBe(1);
    expect(effectiveSampleSize(300, 1)).toBe(1);
  });

  test('treats a constant series as uncorrelated', () => {
    expect(lag1Autocorrelation([3, 3, 3, 3])).toBe(0);
  });
});

import { jStat } from 'jstat';
import { describe, expect, test } from 'vitest';
import { chiSquareCdf, chiSquareQuantile, standardDeviationInterval } from '../../shared/statistics/chi-square.ts';
import { noncentralTCdf } from '../../shared/statistics/noncentral-t.ts';
import { power, sampleSize, sampleSizeRange } from '../../shared/statistics/power.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { summarise, welchComparison } from '../../shared/statistics/two-samples.ts';

describe('the noncentral t distribution', () => {
  test('agrees with jstat', () => {
    for (const df of [2, 5, 20.5, 200]) {
      for (const delta of [-2, 0.5, 3, 8]) {
        for (const t of [-3, -0.5, 0.5, 2, 7]) {
          expect(noncentralTCdf(t, df, delta), `t=${t} ν=${df} δ=${delta}`).toBeCloseTo(
            jStat.noncentralt.cdf(t, df, delta),
            6,
          );
        }
      }
    }
  });

  test('is Φ(−δ) at zero, and the normal shifted by δ for infinite freedom', () => {
    expect(noncentralTCdf(0, 5, 1.3)).toBeCloseTo(0.0968004846, 9); // Φ(−1.3), standard normal table
    expect(noncentralTCdf(2, Infinity, 0.7)).toBeCloseTo(0.9031995154, 9); // Φ(1.3)
    expect(noncentralTCdf(50, 1e6, 49)).toBeCloseTo(0.841, 2);
  });
});

describe('the chi-square distribution', () => {
  test('has quantiles that its distribution function inverts, and agrees with jstat', () => {
    for (const df of [1, 2, 3.5, 8, 60]) {
      for (const p of [0.001, 0.05, 0.5, 0.9, 0.999]) {
        expect(chiSquareCdf(chiSquareQuantile(p, df), df)).toBeCloseTo(p, 10);
        expect(Math.abs(chiSquareQuantile(p, df) / jStat.chisquare.inv(p, df) - 1)).toBeLessThan(1e-6);
      }
    }
  });

  test('gives a wide interval for a deviation from three values: 0.52 s to 6.28 s', () => {
    // √(2/χ²) with χ² quantiles of two degrees of freedom, closed form −2 ln(1 − p).
    const [low, high] = standardDeviationInterval(1, 2, 0.95);
    expect(low).toBeCloseTo(Math.sqrt(2 / (-2 * Math.log(0.025))), 9);
    expect(high).toBeCloseTo(Math.sqrt(2 / (-2 * Math.log(0.975))), 9);
  });
});

describe('planning', () => {
  test('needs 17 burns of each revision for a difference of one scatter, and 16 by the normal approximation', () => {
    // R documentation of power.t.test: n = 16.71477.
    expect(Math.ceil(sampleSize('twoSample', 0.8, 10, 10))).toBe(17);
    expect(Math.ceil(2 * ((1.959964 + 0.841621) * 1) ** 2)).toBe(16);
    expect(Math.ceil(sampleSize('twoSample', 0.8, 10, 5))).toBe(6);
  });

  test('agrees with simulation', () => {
    const random = createRandom('power by simulation');
    const trials = 3000;
    let found = 0;
    for (let trial = 0; trial < trials; trial++) {
      const draw = (mean: number) => summarise(Array.from({ length: 6 }, () => mean + random.normal()));
      if (welchComparison(draw(2), draw(0)).interval[0] > 0) found += 1;
    }
    expect(Math.abs(found / trials - power('twoSample', 6, 2, 1))).toBeLessThan(0.03);
  });

  test('returns a range that narrows as the scatter becomes known', () => {
    const few = sampleSizeRange('twoSample', 0.8, 10, 10, 4);
    const many = sampleSizeRange('twoSample', 0.8, 10, 10, 400);
    expect(few.low).toBeLessThan(many.low);
    expect(few.high).toBeGreaterThan(many.high);
    expect(few.likely).toBe(17);
    expect(many.likely).toBe(17);
  });

  test('is infinite for no difference, and refuses an invalid power', () => {
    expect(sampleSize('twoSample', 0.8, 0, 1)).toBe(Infinity);
    expect(() => sampleSize('twoSample', 0.01, 1, 1)).toThrow(/between 0.05 and 1/);
    expect(() => power('twoSample', 1, 1, 1)).toThrow(/two values/);
  });
});

import { describe, expect, test } from 'vitest';
import { everyLookFactor } from '../../shared/statistics/every-look.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { coverageFactor } from '../../shared/statistics/student-t.ts';

const pairs = (n: number) => n / 2;

describe('limits that hold at every look', () => {
  test.each([
    [3, 7.188],
    [5, 4.002],
    [10, 3.445],
  ])('%i values of each: %f standard errors (worked from the closed form)', (n, factor) => {
    expect(everyLookFactor(0.05, 2 * n - 2, pairs(n))).toBeCloseTo(factor, 3);
  });

  // Student's t at 99.9 %, two-sided, for 4, 8 and 18 degrees of freedom: as in any printed table.
  test.each([
    [3, 8.61],
    [5, 5.041],
    [10, 3.922],
  ])('99.9 %% at one look, %i values of each: %f', (n, factor) => {
    expect(coverageFactor(0.999, 2 * n - 2)).toBeCloseTo(factor, 3);
  });

  test('do not exist for two values of each, nor for two against three', () => {
    expect(everyLookFactor(0.05, 2, 1)).toBe(Infinity);
    expect(everyLookFactor(0.05, 3, 6 / 5)).toBe(Infinity);
  });

  test('a known scatter is the limit of many degrees of freedom', () => {
    expect(everyLookFactor(0.05, 1e9, 3)).toBeCloseTo(everyLookFactor(0.05, Infinity, 3), 6);
  });

  test('are wider than those of one look, by a factor that falls with the number of values', () => {
    for (const n of [4, 8, 16, 64]) {
      expect(everyLookFactor(0.05, 2 * n - 2, pairs(n))).toBeGreaterThan(coverageFactor(0.95, 2 * n - 2));
    }
  });

  test('are refused for invalid arguments', () => {
    expect(() => everyLookFactor(0, 4, 1)).toThrow(RangeError);
    expect(() => everyLookFactor(0.05, 0, 1)).toThrow(RangeError);
    expect(() => everyLookFactor(0.05, 4, 0)).toThrow(RangeError);
  });

  test('find a difference of two equal groups in at most 5 %, with looks from two values of each to forty', () => {
    const random = createRandom('looks');
    const trials = 2000;
    let called = 0;
    for (let trial = 0; trial < trials; trial++) {
      const sums = [0, 0];
      const squares = [0, 0];
      for (let n = 1; n <= 40; n++) {
        for (const side of [0, 1]) {
          const value = random.normal();
          sums[side]! += value;
          squares[side]! += value * value;
        }
        if (n < 2) continue;
        const within = squares[0]! + squares[1]! - (sums[0]! ** 2 + sums[1]! ** 2) / n;
        const standardError = Math.sqrt((within / (2 * n - 2)) * (2 / n));
        if (Math.abs(sums[1]! - sums[0]!) / n > everyLookFactor(0.05, 2 * n - 2, pairs(n)) * standardError) {
          called += 1;
          break;
        }
      }
    }
    // Exact binomial 99.9 % end of 5 % in 2000 trials is 133.
    expect(called).toBeLessThanOrEqual(133);
  });
});

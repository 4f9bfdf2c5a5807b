import { jStat } from 'jstat';
import { describe, expect, test } from 'vitest';
import { binomialBand, binomialCdf } from '../../shared/statistics/binomial.ts';

describe('the binomial distribution', () => {
  test('adds up its terms', () => {
    const terms = [1, 10, 45, 120].map((ways, count) => ways * 0.3 ** count * 0.7 ** (10 - count));
    expect(binomialCdf(3, 10, 0.3)).toBeCloseTo(
      terms.reduce((a, b) => a + b),
      12,
    );
    expect(binomialCdf(-1, 10, 0.3)).toBe(0);
    expect(binomialCdf(10, 10, 0.3)).toBe(1);
  });

  test('agrees with jstat', () => {
    for (const count of [0, 5, 12, 39]) {
      expect(binomialCdf(count, 40, 0.2)).toBeCloseTo(jStat.binomial.cdf(count, 40, 0.2), 7);
    }
  });
});

describe('the band of acceptance', () => {
  test('contains at least its confidence, and less with one count removed at either end', () => {
    for (const [trials, probability, confidence] of [
      [200, 0.95, 0.99],
      [1000, 0.05, 0.99],
      [30, 0.5, 0.95],
    ] as const) {
      const { low, high } = binomialBand(trials, probability, confidence);
      const outside = (1 - confidence) / 2;
      expect(binomialCdf(low - 1, trials, probability)).toBeLessThanOrEqual(outside);
      expect(binomialCdf(low, trials, probability)).toBeGreaterThan(outside);
      expect(1 - binomialCdf(high, trials, probability)).toBeLessThanOrEqual(outside + 1e-12);
      expect(1 - binomialCdf(high - 1, trials, probability)).toBeGreaterThan(outside);
    }
  });

  test('refuses invalid arguments', () => {
    expect(() => binomialBand(10, 0.5, 1)).toThrow(/confidence/);
    expect(() => binomialCdf(1, 2.5, 0.5)).toThrow(/whole trials/);
  });
});

import { describe, expect, test } from 'vitest';
import { betaShares } from '../../shared/statistics/beta.ts';
import { logBeta, logGamma, regularisedGammaP, regularisedGammaQ } from '../../shared/statistics/gamma.ts';
import { normalCdf, normalQuantile } from '../../shared/statistics/normal-distribution.ts';
import { coverageFactor, studentTCdf, studentTQuantile } from '../../shared/statistics/student-t.ts';
import fc from '../support/properties.ts';

const freedom = fc.double({ min: 0.5, max: 1e4, noNaN: true });
const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

describe('the special functions', () => {
  test('logGamma gives factorials and Γ(1/2) = √π', () => {
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 14);
    expect(Math.exp(logGamma(6))).toBeCloseTo(120, 10);
    expect(logGamma(1)).toBeCloseTo(0, 14);
    expect(logGamma(171)).toBeCloseTo(706.5730622457874, 10); // ln 170!, closed sum of logarithms
    expect(() => logGamma(0)).toThrow(/positive/);
  });

  test('logBeta is precise when one shape is large: B(a, 1) = 1/a', () => {
    for (const a of [0.3, 3, 30, 3e5, 3e10]) expect(logBeta(a, 1) + Math.log(a)).toBeCloseTo(0, 12);
  });

  test('the incomplete beta function obeys closed forms: I_x(a, 1) = x^a', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0.1, max: 50, noNaN: true }), (x, a) => {
        const [lower, upper] = betaShares(x, 1 - x, a, 1);
        expect(lower).toBeCloseTo(x ** a, 11);
        expect(lower + upper).toBeCloseTo(1, 12);
      }),
    );
  });

  test('the incomplete gamma function obeys P(1, x) = 1 − exp(−x)', () => {
    for (const x of [1e-3, 0.5, 1.9, 2.1, 10, 40]) {
      expect(regularisedGammaP(1, x)).toBeCloseTo(-Math.expm1(-x), 13);
      expect(regularisedGammaQ(1, x) / Math.exp(-x)).toBeCloseTo(1, 11);
    }
  });
});

describe('the t distribution', () => {
  test('has the closed forms of one and two degrees of freedom', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (t) => {
        expect(studentTCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12);
        expect(studentTCdf(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 12);
      }),
    );
  });

  test('its quantile inverts its distribution function, for whole and other degrees of freedom', () => {
    fc.assert(
      fc.property(probability, freedom, (p, df) => {
        expect(Math.abs(studentTCdf(studentTQuantile(p, df), df) / p - 1)).toBeLessThan(1e-9);
      }),
    );
  });

  test('converges to the normal distribution', () => {
    for (const df of [1e8, 1e12, Infinity]) {
      expect(studentTQuantile(0.975, df)).toBeCloseTo(normalQuantile(0.975), 7);
      expect(studentTCdf(-2, df)).toBeCloseTo(normalCdf(-2), 8);
    }
  });

  test('has infinite ends and refuses invalid arguments', () => {
    expect(studentTQuantile(0, 3)).toBe(-Infinity);
    expect(studentTQuantile(1, 3)).toBe(Infinity);
    expect(() => studentTQuantile(0.5, 0)).toThrow(/positive/);
    expect(() => studentTCdf(1, Number.NaN)).toThrow(/positive/);
    expect(() => coverageFactor(1, 3)).toThrow(/between 0 and 1/);
  });
});

describe('the normal distribution', () => {
  test('its quantile inverts its distribution function, far into the lower tail', () => {
    for (const z of [-30, -8, -3, -0.4, 0, 0.7, 2.5, 5]) expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 9);
  });

  test('refuses a probability outside 0 to 1', () => {
    expect(() => normalQuantile(1.1)).toThrow(/between 0 and 1/);
  });
});

import { describe, expect, test } from 'vitest';
import { fitLine, fitRobustLine, fitWeightedLine } from '../../shared/statistics/line-fit.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import fc from '../support/properties.ts';

describe('a straight line', () => {
  test('is found exactly when the points are on it, by plain, weighted and robust fits', () => {
    const coefficient = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(coefficient, coefficient, fc.integer({ min: 3, max: 40 }), (slope, intercept, count) => {
        const x = Array.from({ length: count }, (_, index) => index * 0.5 - 3);
        const y = x.map((at) => intercept + slope * at);
        for (const fit of [
          fitLine(x, y),
          fitWeightedLine(
            x,
            y,
            x.map((_, i) => 1 + i),
          ),
          fitRobustLine(x, y),
        ]) {
          expect(fit.slope).toBeCloseTo(slope, 9);
          expect(fit.intercept).toBeCloseTo(intercept, 9);
        }
      }),
    );
  });

  test('has standard errors that match the scatter of repeated fits', () => {
    const random = createRandom('repeated fits');
    const x = Array.from({ length: 12 }, (_, index) => index);
    const uncertainty = x.map((at) => 0.5 + 0.1 * at);
    const fits = Array.from({ length: 4000 }, () => {
      const y = x.map((at, index) => 3 - 2 * at + uncertainty[index]! * random.normal());
      return fitWeightedLine(x, y, uncertainty);
    });
    const scatter = Math.sqrt(fits.reduce((sum, fit) => sum + (fit.slope + 2) ** 2, 0) / fits.length);
    expect(Math.abs(scatter / fits[0]!.slopeStandardError - 1)).toBeLessThan(0.05);
    const covariance = fits.reduce((sum, fit) => sum + (fit.slope + 2) * (fit.intercept - 3), 0) / fits.length;
    expect(Math.abs(covariance / fits[0]!.covariance - 1)).toBeLessThan(0.1);
  });

  test('is not changed by a quarter of outliers when fitted robustly', () => {
    const x = Array.from({ length: 20 }, (_, index) => index);
    const y = x.map((at, index) => (index % 4 === 1 ? 1000 : 7 + 0.25 * at));
    expect(fitRobustLine(x, y).slope).toBeCloseTo(0.25, 1);
    expect(Math.abs(fitLine(x, y).intercept - 7)).toBeGreaterThan(50);
  });

  test('is refused without spread in x, with too few points, or with lists of unequal length', () => {
    expect(() => fitLine([1, 1, 1], [1, 2, 3])).toThrow(/different x/);
    expect(() => fitLine([1, 2], [1, 2])).toThrow(/three points/);
    expect(() => fitLine([1, 2, 3], [1, 2])).toThrow(/as many y as x/);
    expect(() => fitWeightedLine([1, 2, 3], [1, 2, 3], [1, 0, 1])).toThrow(/positive standard uncertainty/);
    expect(() => fitRobustLine([2, 2], [1, 3])).toThrow(/different x/);
  });
});

/**
 * JCGM 101:2008, additive models of clause 9.2 by Monte Carlo. The printed numbers are from memory, with closed forms
 * next to them.
 */
import { describe, expect, test } from 'vitest';
import { mean, standardDeviation } from '../../shared/statistics/moments.ts';
import { quantiles, shortestInterval } from '../../shared/statistics/quantile.ts';
import { createRandom } from '../../shared/statistics/random.ts';

const DRAWS = 1_000_000;
const UNIT = Math.sqrt(3);

function propagate(seed: string, draw: (random: ReturnType<typeof createRandom>) => number) {
  const random = createRandom(seed);
  const values = new Float64Array(DRAWS);
  for (let index = 0; index < DRAWS; index++) values[index] = draw(random);
  const [low, high] = quantiles(values, [0.025, 0.975]) as [number, number];
  return {
    mean: mean(values),
    standardUncertainty: standardDeviation(values),
    low,
    high,
    shortest: shortestInterval(values, 0.95),
  };
}

describe('the sum of four independent inputs', () => {
  test('9.2.2: four standard normals give u = 2 and ±3.92', () => {
    const result = propagate('four normals', (r) => r.normal() + r.normal() + r.normal() + r.normal());
    expect(Math.abs(result.mean)).toBeLessThan(0.01);
    expect(result.standardUncertainty).toBeCloseTo(2, 2);
    expect(Math.abs(result.low + 3.92)).toBeLessThan(0.02);
    expect(Math.abs(result.high - 3.92)).toBeLessThan(0.02);
  });

  test('9.2.3: four rectangles of unit deviation give u = 2 and ±3.88, closed form 2√3(2 − 0.6^¼)', () => {
    const result = propagate('four rectangles', (r) => {
      return r.rectangular(UNIT) + r.rectangular(UNIT) + r.rectangular(UNIT) + r.rectangular(UNIT);
    });
    const closedForm = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
    expect(closedForm).toBeCloseTo(3.88, 2);
    expect(result.standardUncertainty).toBeCloseTo(2, 2);
    expect(Math.abs(result.high - closedForm)).toBeLessThan(0.015);
    expect(Math.abs(result.low + closedForm)).toBeLessThan(0.015);
  });

  test('9.2.4: one rectangle ten times wider gives u = 10.1 and ±17.0, and the law with k = 1.96 would give ±19.9', () => {
    const result = propagate('one wide rectangle', (r) => {
      return r.rectangular(UNIT) + r.rectangular(UNIT) + r.rectangular(UNIT) + r.rectangular(10 * UNIT);
    });
    expect(result.standardUncertainty).toBeCloseTo(Math.sqrt(103), 1);
    expect(Math.abs(result.high - 17)).toBeLessThan(0.06);
    expect(Math.abs(result.low + 17)).toBeLessThan(0.06);
    expect(1.96 * result.standardUncertainty).toBeCloseTo(19.9, 1);
    expect(Math.abs(result.shortest[1] - result.shortest[0] - 34)).toBeLessThan(0.15);
  });
});

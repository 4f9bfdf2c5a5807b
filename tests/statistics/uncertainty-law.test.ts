import { describe, expect, test } from 'vitest';
import { standardDeviation } from '../../shared/statistics/moments.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { combineUncertainty, expandUncertainty } from '../../shared/statistics/uncertainty-law.ts';

describe('the law of propagation', () => {
  test('adds independent sources in quadrature', () => {
    expect(combineUncertainty([{ contribution: 3 }, { contribution: -4 }])).toEqual({
      standardUncertainty: 5,
      degreesOfFreedom: Infinity,
    });
  });

  test('adds fully correlated sources linearly, and lets them cancel', () => {
    const together = [{ first: 0, second: 1, coefficient: 1 }];
    expect(combineUncertainty([{ contribution: 3 }, { contribution: 4 }], together).standardUncertainty).toBeCloseTo(
      7,
      12,
    );
    expect(combineUncertainty([{ contribution: 3 }, { contribution: -3 }], together).standardUncertainty).toBe(0);
  });

  test('agrees with drawing the correlated inputs', () => {
    const random = createRandom('correlated pair');
    const sums = Float64Array.from({ length: 200_000 }, () => {
      const shared = random.normal();
      const first = 2 * shared;
      const second = 3 * (0.6 * shared + 0.8 * random.normal());
      return first + second;
    });
    const law = combineUncertainty(
      [{ contribution: 2 }, { contribution: 3 }],
      [{ first: 0, second: 1, coefficient: 0.6 }],
    );
    expect(Math.abs(standardDeviation(sums) / law.standardUncertainty - 1)).toBeLessThan(0.01);
  });

  test('gives two equal sources twice the freedom of one', () => {
    const source = { contribution: 1, degreesOfFreedom: 4 };
    expect(combineUncertainty([source, source]).degreesOfFreedom).toBeCloseTo(8, 12);
  });

  test('refuses correlations of unknown sources, above 1 or contradicting each other', () => {
    const pair = [{ contribution: 1 }, { contribution: 1 }, { contribution: 1 }];
    expect(() => combineUncertainty(pair, [{ first: 0, second: 5, coefficient: 0.5 }])).toThrow(/no meaning/);
    expect(() => combineUncertainty(pair, [{ first: 0, second: 1, coefficient: 1.5 }])).toThrow(/no meaning/);
    const impossible = [
      { first: 0, second: 1, coefficient: -1 },
      { first: 0, second: 2, coefficient: -1 },
      { first: 1, second: 2, coefficient: -1 },
    ];
    expect(() => combineUncertainty(pair, impossible)).toThrow(/contradict/);
  });
});

test('three repeats need 4.30 standard errors for 95 %, not 1.96', () => {
  // t for two degrees of freedom: JCGM 100:2008 table G.2.
  expect(expandUncertainty(1, 2).coverageFactor).toBeCloseTo(4.3, 2);
  expect(expandUncertainty(1, Infinity).coverageFactor).toBeCloseTo(1.96, 2);
});

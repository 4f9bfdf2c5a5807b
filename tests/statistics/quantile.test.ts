import { describe, expect, test } from 'vitest';
import { median, quantiles, shortestInterval } from '../../shared/statistics/quantile.ts';
import fc from '../support/properties.ts';

const manyValues = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 200 });

describe('quantiles', () => {
  test('of 1 to 10 are those that R prints for type 7', () => {
    // R: quantile(1:10) prints 1.00 3.25 5.50 7.75 10.00.
    const values = Float64Array.of(7, 2, 10, 4, 5, 6, 1, 8, 9, 3);
    expect(quantiles(values, [0, 0.25, 0.5, 0.75, 1])).toEqual([1, 3.25, 5.5, 7.75, 10]);
  });

  test('agree with sorting all values, whatever the values and their order', () => {
    const probabilities = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(manyValues, probabilities, (list, wanted) => {
        const values = Float64Array.from(list);
        const sorted = values.slice().sort();
        const bySorting = wanted.map((p) => {
          const position = p * (sorted.length - 1);
          const below = sorted[Math.floor(position)]!;
          return below + (position - Math.floor(position)) * (sorted[Math.ceil(position)]! - below);
        });
        expect(quantiles(values, wanted)).toEqual(bySorting);
        expect(Array.from(values)).toEqual(list);
      }),
    );
  });

  test('are correct with long runs of equal values', () => {
    const values = new Float64Array(100_000).fill(4);
    values[17] = 5;
    expect(quantiles(values, [0.5, 1])).toEqual([4, 5]);
  });

  test('refuse an empty series and a probability outside 0 to 1', () => {
    expect(() => median(new Float64Array(0))).toThrow(/at least one value/);
    expect(() => quantiles(Float64Array.of(1), [1.5])).toThrow(/between 0 and 1/);
  });
});

describe('the shortest interval', () => {
  test('agrees with trying every interval of that many values', () => {
    fc.assert(
      fc.property(manyValues, fc.double({ min: 0.05, max: 0.99, noNaN: true }), (list, coverage) => {
        const sorted = Float64Array.from(list).sort();
        const span = Math.min(list.length - 1, Math.max(1, Math.floor(coverage * list.length + 0.5)));
        let width = Infinity;
        for (let i = 0; i + span < list.length; i++) width = Math.min(width, sorted[i + span]! - sorted[i]!);
        const [low, high] = shortestInterval(Float64Array.from(list), coverage);
        expect(high - low).toBe(width);
      }),
    );
  });

  test('is at the steep end of a skewed series', () => {
    // Exponential distribution: the shortest 95 % interval starts at 0 and ends at −ln 0.05 = 2.9957.
    const values = Float64Array.from({ length: 10_000 }, (_, index) => -Math.log(1 - (index + 0.5) / 10_000));
    const [low, high] = shortestInterval(values, 0.95);
    expect(low).toBeLessThan(0.001);
    expect(high).toBeCloseTo(2.9957, 2);
  });
});

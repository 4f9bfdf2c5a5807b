import { describe, expect, test } from 'vitest';
import { individualsChart } from '../../shared/statistics/individuals-chart.ts';

describe('the individuals chart', () => {
  const steady = [10, 11, 9, 10.5, 9.5, 10, 11, 9, 10];

  test('lists a value beyond its limits and the jump to it', () => {
    const chart = individualsChart([...steady, 25]);
    expect(chart.outside).toEqual([9]);
    expect(chart.jumps).toEqual([9]);
  });

  test('lists a long run on one side of the centre', () => {
    const chart = individualsChart([...steady, 10.6, 10.7, 10.8, 10.6, 10.9, 10.7, 10.6, 10.8, 10.7]);
    expect(chart.outside).toEqual([]);
    expect(chart.runs).toEqual([16, 17]);
  });

  test('is refused for a single value', () => {
    expect(() => individualsChart([1])).toThrow(/at least two/);
  });
});

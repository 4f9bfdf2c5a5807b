/** Worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods. */
import { describe, expect, test } from 'vitest';
import { individualsChart } from '../../shared/statistics/individuals-chart.ts';
import { studentTQuantile } from '../../shared/statistics/student-t.ts';
import { pooledComparison, summarise, welchComparison } from '../../shared/statistics/two-samples.ts';
import cars from './data/nist-auto83b.json' with { type: 'json' };

describe('the two-sample t test of miles per gallon, section 1.3.5.3', () => {
  const us = summarise(cars.us);
  const japan = summarise(cars.japan);

  test('has the printed summaries', () => {
    expect(us.count).toBe(249);
    expect(us.mean).toBeCloseTo(20.14458, 5);
    expect(us.standardDeviation).toBeCloseTo(6.4147, 4);
    expect(japan.count).toBe(79);
    expect(japan.mean).toBeCloseTo(30.48101, 5);
    expect(japan.standardDeviation).toBeCloseTo(6.10771, 5);
  });

  test('gives the printed statistic, freedom, critical value and interval with equal spreads', () => {
    const result = pooledComparison(us, japan);
    expect(result.statistic).toBeCloseTo(-12.62059, 5);
    expect(result.degreesOfFreedom).toBe(326);
    expect(studentTQuantile(0.975, 326)).toBeCloseTo(1.967268, 6);
    expect(studentTQuantile(0.05, 326)).toBeCloseTo(-1.649541, 6);
    // Interval as printed by R for these data.
    expect(result.interval[0]).toBeCloseTo(-11.947653, 6);
    expect(result.interval[1]).toBeCloseTo(-8.725216, 6);
  });

  test('gives the printed statistic and freedom with unequal spreads', () => {
    // Section 1.3.5.3 prints T = −12.94627 and ν = 136.8750 for this case (from memory of the page).
    const result = welchComparison(us, japan);
    expect(result.statistic).toBeCloseTo(-12.94627, 5);
    expect(result.degreesOfFreedom).toBeCloseTo(136.875, 3);
  });
});

test('the individuals chart of ten flow rates has the printed limits, section 6.3.2.2', () => {
  const chart = individualsChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
  expect(chart.centre).toBeCloseTo(50.81, 10);
  expect(chart.meanMovingRange).toBeCloseTo(1.8778, 4);
  expect(chart.high).toBeCloseTo(55.8041, 4);
  expect(chart.low).toBeCloseTo(45.8159, 4);
  expect(chart.movingRangeLimit).toBeCloseTo(6.1349, 3);
  expect([chart.outside, chart.jumps, chart.runs]).toEqual([[], [], []]);
});

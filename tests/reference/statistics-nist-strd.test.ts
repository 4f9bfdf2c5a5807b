/**
 * NIST Statistical Reference Datasets (www.itl.nist.gov/div898/strd), certified values. The tolerance is relative:
 * about 1e-13 for the easy sets, and for NumAcc3 and NumAcc4, whose decimals have no exact binary form, what that
 * representation itself allows.
 */
import { describe, expect, test } from 'vitest';
import { fitLine, fitWeightedLine } from '../../shared/statistics/line-fit.ts';
import { lag1Autocorrelation, mean, standardDeviation } from '../../shared/statistics/moments.ts';
import sets from './data/nist-strd-univariate.json' with { type: 'json' };

const alternating = (first: number, low: number, high: number) => [
  first,
  ...Array.from({ length: 1000 }, (_, index) => (index % 2 === 0 ? low : high)),
];

const univariate = [
  {
    name: 'Lew',
    values: sets.lew,
    mean: -177.435,
    deviation: 277.332168044316,
    lag1: -0.307304800605679,
    digits: 1e-13,
  },
  {
    name: 'Lottery',
    values: sets.lottery,
    mean: 518.95871559633,
    deviation: 291.699727470969,
    lag1: -0.120948622967393,
    digits: 1e-13,
  },
  { name: 'Mavro', values: sets.mavro, mean: 2.001856, deviation: 0.000429123454003053, lag1: 0.93798, digits: 1e-12 },
  {
    name: 'Michelson',
    values: sets.michelson,
    mean: 299.8524,
    deviation: 0.0790105478190518,
    lag1: 0.535199668621283,
    digits: 1e-13,
  },
  { name: 'NumAcc1', values: [10000001, 10000003, 10000002], mean: 10000002, deviation: 1, lag1: -0.5, digits: 1e-15 },
  { name: 'NumAcc2', values: alternating(1.2, 1.1, 1.3), mean: 1.2, deviation: 0.1, lag1: -0.999, digits: 1e-13 },
  {
    name: 'NumAcc3',
    values: alternating(1000000.2, 1000000.1, 1000000.3),
    mean: 1000000.2,
    deviation: 0.1,
    lag1: -0.999,
    digits: 1e-9,
  },
  {
    name: 'NumAcc4',
    values: alternating(10000000.2, 10000000.1, 10000000.3),
    mean: 10000000.2,
    deviation: 0.1,
    lag1: -0.999,
    digits: 1e-8,
  },
];

describe.each(univariate)('$name', (set) => {
  test('has its certified mean and standard deviation', () => {
    expect(Math.abs(mean(set.values) / set.mean - 1)).toBeLessThan(1e-14);
    expect(Math.abs(standardDeviation(set.values) / set.deviation - 1)).toBeLessThan(set.digits);
  });
});

test.each(univariate.filter((set) => set.name !== 'Mavro'))('$name has its certified lag-1 autocorrelation', (set) => {
  expect(Math.abs(lag1Autocorrelation(set.values) / set.lag1 - 1)).toBeLessThan(Math.max(1e-12, set.digits));
});

test('the one-pass formula, which is not used, gives no standard deviation for NumAcc4', () => {
  const values = univariate.at(-1)!.values;
  const sum = values.reduce((total, value) => total + value, 0);
  const squares = values.reduce((total, value) => total + value * value, 0);
  const onePass = Math.sqrt((squares - (sum * sum) / values.length) / (values.length - 1));
  expect(Math.abs(onePass - 0.1) < 0.01).toBe(false);
  expect(standardDeviation(values)).toBeCloseTo(0.1, 8);
});

describe('Norris, a straight line through 36 points', () => {
  const x = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5,
    11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1,
    448.9, 0.5,
  ];
  const y = [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
    557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2,
    0.2,
  ];

  test('has its certified coefficients, standard errors and residual scatter', () => {
    const fit = fitLine(x, y);
    const certified = {
      slope: 1.00211681802045,
      intercept: -0.262323073774029,
      slopeStandardError: 0.429796848199937e-3,
      interceptStandardError: 0.232818234301152,
      residualStandardDeviation: 0.884796396144373,
    };
    for (const key of Object.keys(certified) as (keyof typeof certified)[]) {
      expect(Math.abs(fit[key] / certified[key] - 1), key).toBeLessThan(1e-11);
    }
    expect(fit.degreesOfFreedom).toBe(34);
  });

  test('is the same from the weighted fit when every point has the residual scatter as its uncertainty', () => {
    const plain = fitLine(x, y);
    const weighted = fitWeightedLine(
      x,
      y,
      x.map(() => plain.residualStandardDeviation),
    );
    expect(weighted.slope).toBeCloseTo(plain.slope, 12);
    expect(weighted.intercept).toBeCloseTo(plain.intercept, 10);
    expect(weighted.slopeStandardError).toBeCloseTo(plain.slopeStandardError, 14);
    expect(weighted.residualStandardDeviation).toBeCloseTo(1, 12);
  });
});

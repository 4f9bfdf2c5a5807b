/** JCGM 100:2008 (GUM): the end-gauge example H.1 and table G.2. */
import { describe, expect, test } from 'vitest';
import { mean, standardDeviation } from '../../shared/statistics/moments.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { coverageFactor } from '../../shared/statistics/student-t.ts';
import { combineUncertainty, expandUncertainty } from '../../shared/statistics/uncertainty-law.ts';

describe('the end gauge of H.1', () => {
  // l = ls + d − ls(δα·θ + αs·δθ), lengths in nm; at the estimates only these four inputs have a first-order effect.
  const standardLengthNm = 50.000623e6;
  const sources = [
    { contribution: 25, degreesOfFreedom: 18 },
    { contribution: 9.7, degreesOfFreedom: 25.6 },
    { contribution: -standardLengthNm * -0.1 * 0.58e-6, degreesOfFreedom: 50 },
    { contribution: -standardLengthNm * 11.5e-6 * 0.029, degreesOfFreedom: 2 },
  ];

  test('has the printed contributions of 2.9 nm and 16.6 nm', () => {
    expect(Math.abs(sources[2]!.contribution)).toBeCloseTo(2.9, 1);
    expect(Math.abs(sources[3]!.contribution)).toBeCloseTo(16.7, 1);
  });

  test('has a combined uncertainty of 32 nm, 16 degrees of freedom and U99 = 93 nm', () => {
    const combined = combineUncertainty(sources);
    expect(Math.round(combined.standardUncertainty)).toBe(32);
    expect(Math.floor(combined.degreesOfFreedom)).toBe(16);
    // G.4.1 truncates the freedom to 16 for the table: k = 2.92.
    const expanded = expandUncertainty(combined.standardUncertainty, 16, 0.99);
    expect(expanded.coverageFactor).toBeCloseTo(2.92, 2);
    expect(Math.round(expanded.expandedUncertainty)).toBe(93);
  });

  test('is larger by Monte Carlo, because αs and θ have only second-order effects: 34 nm', () => {
    // H.1.7: with the second-order terms 34 nm (the printed number is from memory).
    const random = createRandom('end gauge');
    const lengths = Float64Array.from({ length: 200_000 }, () => {
      const expansion = 11.5e-6 + random.rectangular(2e-6);
      const deviation = -0.1 + 0.41 * random.normal();
      const expansionDifference = 0.58e-6 * random.normal();
      const temperatureDifference = 0.029 * random.normal();
      const correction = expansionDifference * deviation + expansion * temperatureDifference;
      return 25 * random.normal() + 9.7 * random.normal() - standardLengthNm * correction;
    });
    expect(Math.abs(mean(lengths))).toBeLessThan(0.5);
    expect(standardDeviation(lengths)).toBeGreaterThan(33.4);
    expect(standardDeviation(lengths)).toBeLessThan(34.5);
  });
});

test.each([
  // Table G.2: freedom, then t for 68.27, 90, 95, 95.45, 99 and 99.73 %. Rows from memory except 16 (95, 95.45, 99).
  [1, 1.84, 6.31, 12.71, 13.97, 63.66, 235.8],
  [3, 1.2, 2.35, 3.18, 3.31, 5.84, 9.22],
  [5, 1.11, 2.02, 2.57, 2.65, 4.03, 5.51],
  [10, 1.05, 1.81, 2.23, 2.28, 3.17, 3.96],
  [16, 1.03, 1.75, 2.12, 2.17, 2.92, 3.54],
  [30, 1.02, 1.7, 2.04, 2.09, 2.75, 3.27],
  [Infinity, 1, 1.645, 1.96, 2, 2.576, 3],
] as const)('table G.2 for %s degrees of freedom', (degreesOfFreedom, ...row) => {
  const coverages = [0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973];
  row.forEach((printed, column) => {
    const tolerance = printed > 100 ? 0.06 : 0.0051;
    expect(Math.abs(coverageFactor(coverages[column]!, degreesOfFreedom) - printed)).toBeLessThan(tolerance);
  });
});

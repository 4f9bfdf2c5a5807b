import { describe, expect, it } from 'vitest';
import {
  betaFromPoints,
  betaTempC,
  steinhartHartFromPoints,
  steinhartHartOhm,
  steinhartHartTempC,
} from '../../shared/physics/thermistor.ts';

// Appendix on the Steinhart–Hart equation in the manual of a laboratory temperature controller: resistance of a common
// 10 kΩ thermistor. It states that a fit over 0 to 50 °C has an error below 0.01 °C. Its entry for 40 °C, 5331 Ω, is
// out of line by 0.47 °C (5231 fits) and counts as a misprint.
const MEASURED: [ohm: number, tempC: number][] = [
  [32_128, 0],
  [19_549, 10],
  [12_262, 20],
  [9814, 25],
  [7908, 30],
  [3542, 50],
];

describe('thermistor of a published calibration', () => {
  const points = [
    { ohm: 32_128, tempC: 0 },
    { ohm: 9814, tempC: 25 },
    { ohm: 3542, tempC: 50 },
  ] as const;
  const fit = steinhartHartFromPoints(points);

  it.each(MEASURED)('%d Ω is %d °C by the equation through three of its points', (ohm, tempC) => {
    expect(Math.abs(steinhartHartTempC(ohm, fit) - tempC)).toBeLessThan(0.01);
    expect(steinhartHartTempC(steinhartHartOhm(tempC, fit), fit)).toBeCloseTo(tempC, 10);
  });

  it('is less accurate by the beta equation, which uses two points only', () => {
    const beta = { betaK: betaFromPoints(points[0], points[2]), ohmAtReference: 32_128, referenceTempC: 0 };
    expect(betaTempC(3542, beta)).toBeCloseTo(50, 9);
    expect(Math.abs(betaTempC(9814, beta) - 25)).toBeGreaterThan(0.1);
    expect(Math.abs(betaTempC(9814, beta) - 25)).toBeLessThan(1);
  });
});

// Example of a widely used on-line calculator of thermistor coefficients (from memory).
describe('coefficients through three points', () => {
  it('are the published ones for 25, 10 and 4 kΩ at 5, 25 and 45 °C', () => {
    const { a, b, c } = steinhartHartFromPoints([
      { ohm: 25_000, tempC: 5 },
      { ohm: 10_000, tempC: 25 },
      { ohm: 4000, tempC: 45 },
    ]);
    expect(a).toBeCloseTo(2.108508173e-3, 12);
    expect(b).toBeCloseTo(0.7979204727e-4, 13);
    expect(c).toBeCloseTo(6.535076315e-7, 15);
  });
});

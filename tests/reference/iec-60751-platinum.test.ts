import { describe, expect, it } from 'vitest';
import { platinumOhm, platinumTempC, platinumToleranceK } from '../../shared/physics/resistance-probe.ts';

describe('IEC 60751 platinum probes', () => {
  // Printed Pt100 tables, two decimals.
  it.each([
    [-200, 18.52],
    [-150, 39.72],
    [-100, 60.26],
    [-50, 80.31],
    [-10, 96.09],
    [0, 100],
    [1, 100.39],
    [2, 100.78],
    [3, 101.17],
  ])('a Pt100 at %d °C has the printed %d Ω', (tempC, printedOhm) => {
    expect(Math.abs(platinumOhm(tempC) - printedOhm)).toBeLessThanOrEqual(0.00501);
    // The rounded printed value at the lower limit is just outside the equation and is refused.
    if (tempC > -200) expect(Math.abs(platinumTempC(printedOhm) - tempC)).toBeLessThan(0.0135);
  });

  // The standard's scope: mean temperature coefficient 3.851e-3 /K from 0 to 100 °C.
  it('rises by 0.3851 of its resistance from the ice to the steam point', () => {
    expect(platinumOhm(100) / 100 - 1).toBeCloseTo(0.3851, 4);
  });

  // Follow from A = 3.9083e-3, B = −5.775e-7, C = −4.183e-12 of the standard by its equations.
  it.each([
    [-200, 18.5201],
    [-100, 60.2558],
    [25, 109.7347],
    [100, 138.5055],
    [200, 175.856],
    [400, 247.092],
    [850, 390.4811],
  ])('at %d °C the equation gives %d Ω, and ten times that for a Pt1000', (tempC, ohm) => {
    expect(platinumOhm(tempC)).toBeCloseTo(ohm, 4);
    expect(platinumOhm(tempC, 1000)).toBeCloseTo(10 * platinumOhm(tempC), 9);
    expect(platinumTempC(10 * platinumOhm(tempC), 1000)).toBeCloseTo(tempC, 9);
  });

  // IEC 60751 tolerances AA ±(0.1 + 0.0017·|t|), A ±(0.15 + 0.002·|t|), B ±(0.3 + 0.005·|t|); class C from memory.
  it('has the tolerance of its class', () => {
    expect(platinumToleranceK('AA', 100)).toBeCloseTo(0.27, 10);
    expect(platinumToleranceK('A', 100)).toBeCloseTo(0.35, 10);
    expect(platinumToleranceK('B', 100)).toBeCloseTo(0.8, 10);
    expect(platinumToleranceK('C', 100)).toBeCloseTo(1.6, 10);
    expect(platinumToleranceK('B', -100)).toBeCloseTo(0.8, 10);
    expect(platinumToleranceK('AA', 300)).toBeUndefined();
  });
});

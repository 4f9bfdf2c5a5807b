import { describe, expect, it } from 'vitest';
import { waterDensityKgPerM3, waterMassKg } from '../../shared/physics/water.ts';

/** The form of Kell's fit: a polynomial over 1 + k·t. */
function kellForm(t: number, c: readonly number[], k: number): number {
  return c.reduceRight((sum, coefficient) => sum * t + coefficient, 0) / (1 + k * t);
}

// G. S. Kell, J. Chem. Eng. Data 20 (1975) 97–105, on the IPTS-68 scale.
const KELL_1975 = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
// H. Bettin and F. Spieweck, PTB-Mitteilungen 100 (1990) 195–196: the same data on ITS-90, stated uncertainty
// 0.006 kg/m³ at ordinary temperatures.
const KELL_ITS90 = [999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12];

describe('density of water', () => {
  it.each([0.01, 4, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 95, 99.9])(
    'at %d °C agrees with the ITS-90 form of Kell to the uncertainties of both',
    (tempC) => {
      // 0.006 kg/m³ of the fit and 0.002 % (0.020 kg/m³) of the industrial formulation.
      expect(Math.abs(waterDensityKgPerM3(tempC) - kellForm(tempC, KELL_ITS90, 16.887236e-3))).toBeLessThan(0.026);
    },
  );

  // M. Tanaka et al., Metrologia 38 (2001) 301–309 (the CIPM formula), outputs as printed by a package's documentation.
  it.each([
    [10, 999.7027],
    [15, 999.1026],
    [20, 998.2067],
    [30, 995.6488],
  ])('at %d °C agrees with the CIPM value %d', (tempC, printed) => {
    expect(Math.abs(waterDensityKgPerM3(tempC) - printed)).toBeLessThan(0.02);
  });

  it('does not agree with a misprint in a circulated copy of Kell 1975 (denominator 16.897850e-3)', () => {
    expect(kellForm(25, KELL_1975, 16.89785e-3)).toBeCloseTo(996.7295, 3);
    expect(Math.abs(kellForm(25, KELL_1975, 16.87985e-3) - waterDensityKgPerM3(25))).toBeLessThan(0.01);
  });

  it('is greatest at 3.98 °C', () => {
    expect(waterDensityKgPerM3(3.98)).toBeGreaterThan(waterDensityKgPerM3(3.9));
    expect(waterDensityKgPerM3(3.98)).toBeGreaterThan(waterDensityKgPerM3(4.1));
  });

  it('makes 30 litres read at 95 °C weigh 28.9 kg', () => {
    expect(waterMassKg(30, 95)).toBeCloseTo(28.857, 2);
  });
});

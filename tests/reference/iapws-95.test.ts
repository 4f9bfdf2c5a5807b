import { describe, expect, it } from 'vitest';
import {
  saturationPressurePa,
  vaporisationJPerKg,
  waterDensityKgPerM3,
  waterEnthalpyJPerKg,
  waterSpecificHeatJPerKgK,
} from '../../shared/physics/water.ts';

// The scientific formulation IAPWS-95, computed with the open-source Python library iapws 1.5.3: liquid at 101.325 kPa
// (saturated at 105 °C), heat of vaporisation and pressure at saturation.
const ROWS: [tempC: number, densityKgPerM3: number, enthalpyKJ: number, cpKJ: number, latentKJ: number, pa: number][] =
  [
    [0.02, 999.8444, 0.1454, 4.21938, 2500.8907, 612.099],
    [4, 999.9749, 16.9137, 4.2075, 2491.4171, 813.548],
    [10, 999.7025, 42.1189, 4.19516, 2477.1871, 1228.199],
    [20, 998.2072, 84.0073, 4.18405, 2453.5193, 2339.318],
    [25, 997.0476, 104.9201, 4.18131, 2441.6762, 3169.929],
    [30, 995.6495, 125.8225, 4.17982, 2429.8112, 4246.971],
    [40, 992.2164, 167.6163, 4.17941, 2405.9773, 7384.938],
    [50, 988.035, 209.4185, 4.18134, 2381.9471, 12351.946],
    [60, 983.1958, 251.2487, 4.18495, 2357.6545, 19946.434],
    [70, 977.7646, 293.1225, 4.19007, 2333.0312, 31200.93],
    [80, 971.7904, 335.0553, 4.19675, 2308.0035, 47414.474],
    [90, 965.3096, 377.0635, 4.20521, 2282.4906, 70181.766],
    [95, 961.8879, 398.1017, 4.21017, 2269.5248, 84608.466],
    [99.9, 958.4209, 418.7445, 4.21556, 2256.6677, 101056.597],
    [105, 954.7043, 440.2739, 4.2217, 2243.1151, 120903.092],
  ];

describe('water against the scientific formulation IAPWS-95', () => {
  it.each(ROWS)('agrees at %d °C within the stated errors', (tempC, density, enthalpyKJ, cpKJ, latentKJ, pa) => {
    expect(Math.abs(waterDensityKgPerM3(tempC) / density - 1)).toBeLessThan(2e-5);
    expect(Math.abs(waterEnthalpyJPerKg(tempC) / 1000 - enthalpyKJ)).toBeLessThan(0.08);
    expect(Math.abs(waterSpecificHeatJPerKgK(tempC) / 1000 / cpKJ - 1)).toBeLessThan(7e-4);
    expect(Math.abs(vaporisationJPerKg(tempC) / 1000 - latentKJ)).toBeLessThan(0.1);
    expect(Math.abs(saturationPressurePa(tempC) / pa - 1)).toBeLessThan(2.5e-4);
  });
});

import { expect, test } from 'vitest';
import { latentHeatJPerKg, liquidEnthalpyJPerKg, liquidTempC, vapourPressurePa } from '../../server/simulator/water.ts';
import { saturationPressurePa, vaporisationJPerKg, waterEnthalpyJPerKg } from '../../shared/physics/water.ts';

test("the pot's fast fits agree with IAPWS-IF97 far better than any weighing", () => {
  for (let tempC = 1; tempC <= 100; tempC += 1) {
    // Only enthalpy differences count; the zero of the two scales differs by the pressure's 0.1 kJ/kg.
    const rise = liquidEnthalpyJPerKg(tempC) - liquidEnthalpyJPerKg(1);
    expect(Math.abs(rise - (waterEnthalpyJPerKg(tempC) - waterEnthalpyJPerKg(1)))).toBeLessThan(60);
    expect(Math.abs(latentHeatJPerKg(tempC) - vaporisationJPerKg(tempC))).toBeLessThan(60);
    expect(Math.abs(vapourPressurePa(tempC) / saturationPressurePa(tempC) - 1)).toBeLessThan(0.01);
  }
});

test('temperature and enthalpy are each other’s inverse', () => {
  for (let tempC = 0; tempC <= 105; tempC += 0.7) {
    expect(liquidTempC(liquidEnthalpyJPerKg(tempC))).toBeCloseTo(tempC, 6);
  }
});

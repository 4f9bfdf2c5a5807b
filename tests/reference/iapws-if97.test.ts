import { describe, expect, it } from 'vitest';
import { boilingPointC } from '../../shared/physics/atmosphere.ts';
import {
  if97LiquidEnthalpyJPerKg,
  if97LiquidSpecificHeatJPerKgK,
  if97LiquidVolumeM3PerKg,
} from '../../shared/physics/if97-liquid.ts';
import { if97VapourEnthalpyJPerKg } from '../../shared/physics/if97-vapour.ts';
import {
  saturationPressurePa,
  saturationTempC,
  vaporisationJPerKg,
  waterDensityKgPerM3,
  waterEnthalpyJPerKg,
  waterSpecificHeatJPerKgK,
} from '../../shared/physics/water.ts';

/** Relative agreement with a value printed to nine digits. */
function expectNineDigits(actual: number, printed: number): void {
  expect(Math.abs(actual / printed - 1)).toBeLessThan(1e-8);
}

// IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997: the tables it gives for verifying a
// program, printed to nine digits.
describe('IAPWS-IF97 verification tables', () => {
  it('gives the saturation pressures of Table 35', () => {
    expectNineDigits(saturationPressurePa(300 - 273.15), 0.353658941e-2 * 1e6);
    expectNineDigits(saturationPressurePa(500 - 273.15), 0.263889776e1 * 1e6);
    expectNineDigits(saturationPressurePa(600 - 273.15), 0.123443146e2 * 1e6);
  });

  it('gives the saturation temperatures of Table 36', () => {
    expectNineDigits(saturationTempC(0.1e6) + 273.15, 0.372755919e3);
    expectNineDigits(saturationTempC(1e6) + 273.15, 0.453035632e3);
    expectNineDigits(saturationTempC(10e6) + 273.15, 0.584149488e3);
  });

  it('gives volume, enthalpy and specific heat of liquid water of Table 5', () => {
    const rows = [
      [300, 3e6, 0.100215168e-2, 0.115331273e3, 0.417301218e1],
      [300, 80e6, 0.971180894e-3, 0.184142828e3, 0.401008987e1],
      [500, 3e6, 0.1202418e-2, 0.975542239e3, 0.465580682e1],
    ] as const;
    for (const [tempK, pressurePa, volume, enthalpyKJ, specificHeatKJ] of rows) {
      expectNineDigits(if97LiquidVolumeM3PerKg(tempK, pressurePa), volume);
      expectNineDigits(if97LiquidEnthalpyJPerKg(tempK, pressurePa), enthalpyKJ * 1000);
      expectNineDigits(if97LiquidSpecificHeatJPerKgK(tempK, pressurePa), specificHeatKJ * 1000);
    }
  });

  it('gives the enthalpies of steam of Table 15', () => {
    expectNineDigits(if97VapourEnthalpyJPerKg(300, 0.0035e6), 0.254991145e7);
    expectNineDigits(if97VapourEnthalpyJPerKg(700, 0.0035e6), 0.333568375e7);
    expectNineDigits(if97VapourEnthalpyJPerKg(700, 30e6), 0.263149474e7);
  });
});

describe('water at the boil', () => {
  it('boils at 99.974 °C under one standard atmosphere, not at 100', () => {
    expect(boilingPointC(101_325)).toBeCloseTo(99.9743, 4);
  });

  it('has a vapour pressure of 101.418 kPa at exactly 100 °C, not 101.325', () => {
    expect(saturationPressurePa(100)).toBeCloseTo(101_418.0, 0);
  });

  // IAPWS SR1-86(1992), Saturation properties of ordinary water, check points at 373.1243 K and 273.16 K; its printed
  // enthalpies are from memory. The two formulations agree to 0.1 kJ/kg.
  it('agrees with the separate saturation equations of IAPWS SR1-86', () => {
    expect(waterEnthalpyJPerKg(99.9743) / 1000).toBeCloseTo(419.05, 0);
    expect(Math.abs(vaporisationJPerKg(99.9743) / 1000 - (2675.7 - 419.05))).toBeLessThan(0.15);
    expect(Math.abs(vaporisationJPerKg(0.01) / 1000 - 2500.5)).toBeLessThan(0.5);
    expect(Math.abs(saturationPressurePa(0.01) - 611.657)).toBeLessThan(0.001);
  });

  // IAPWS SR6-08(2011), liquid water at 0.1 MPa: density and specific heat, the latter to the 0.1 % stated for each
  // equation.
  it('agrees with the liquid equation of IAPWS SR6-08', () => {
    expect(Math.abs(waterDensityKgPerM3(25) / 997.0470134 - 1)).toBeLessThan(2e-5);
    expect(Math.abs(waterDensityKgPerM3(375 - 273.15) / 957.0097103 - 1)).toBeLessThan(2e-5);
    expect(Math.abs(waterSpecificHeatJPerKgK(25) / 4181.44618 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(waterSpecificHeatJPerKgK(375 - 273.15) / 4217.74697 - 1)).toBeLessThan(1e-3);
  });
});

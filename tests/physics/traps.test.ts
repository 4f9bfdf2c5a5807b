import { describe, expect, it } from 'vitest';
import {
  boilingPointC,
  standardPressureAtGeometricPa,
  standardPressureAtGeopotentialPa,
} from '../../shared/physics/atmosphere.ts';
import { airRatioFromOxygen } from '../../shared/physics/flue-gas.ts';
import { netAsReceivedMJPerKg, WATER_IN_FUEL_MJ_PER_KG } from '../../shared/physics/fuel.ts';
import { moistureDryFromWet, moistureWetFromDry, moistureWetFromMasses } from '../../shared/physics/moisture.ts';
import { polynomial } from '../../shared/physics/polynomial.ts';
import { platinumOhm, platinumTempC } from '../../shared/physics/resistance-probe.ts';
import {
  compensatedTempC,
  thermocoupleInverseRangeC,
  thermocoupleMillivolts,
  thermocoupleRangeMillivolts,
  thermocoupleSensitivityUvPerK,
  thermocoupleTempC,
} from '../../shared/physics/thermocouple.ts';
import { THERMOCOUPLE_FUNCTIONS } from '../../shared/physics/thermocouple-coefficients.ts';
import {
  saturationPressurePa,
  vaporisationJPerKg,
  waterEnthalpyJPerKg,
  waterMassKg,
} from '../../shared/physics/water.ts';

// Mistakes that are made in practice, each with the wrong number it gives. Expected numbers are computed from the
// published functions with which the reference tests compare the code, unless a source is named.
describe('thermocouple mistakes', () => {
  it('adding the cold junction in °C instead of mV reads 25 + 99.99 for a true 124.31 °C', () => {
    const trueC = compensatedTempC('K', 4.096, 25);
    expect(trueC).toBeCloseTo(124.31, 2);
    expect(thermocoupleTempC('K', 4.096) + 25 - trueC).toBeGreaterThan(0.6);
  });

  it('leaving the cold junction out reads 100 for a true 124.31 °C', () => {
    expect(thermocoupleTempC('K', 4.096)).toBeCloseTo(99.994, 2);
  });

  it('a flat sensitivity of 41.276 µV/K is 3.5 K wrong from 25 to 300 °C', () => {
    const flatMillivolts = 0.041276 * (300 - 25);
    expect(compensatedTempC('K', flatMillivolts, 25) - 300).toBeCloseTo(3.45, 1);
  });

  it('the inverse polynomial alone is up to 0.03 °C off where the exact inversion is not', () => {
    const seed = THERMOCOUPLE_FUNCTIONS.K.inverse[1]!.coefficients;
    const millivolts = thermocoupleMillivolts('K', 49.907928);
    expect(polynomial(seed, millivolts)).toBeCloseTo(49.9412, 4);
    expect(thermocoupleTempC('K', millivolts)).toBeCloseTo(49.907928, 9);
  });

  it('type K below zero is free of the exponential, and zero is exactly zero', () => {
    expect(thermocoupleMillivolts('K', 0)).toBe(0);
    expect(thermocoupleTempC('K', 0)).toBe(0);
    expect(thermocoupleMillivolts('K', 0.001)).toBeCloseTo(3.94521e-5, 10);
    expect(thermocoupleMillivolts('K', -0.001)).toBeCloseTo(-3.94501e-5, 10);
    // With the exponential the voltage at −100 °C would be 0.0003 mV off; the printed table has −3.554.
    expect(thermocoupleMillivolts('K', -100)).toBeCloseTo(-3.553631, 6);
  });

  it('the rounded voltage limits would refuse the last hundredths of a degree', () => {
    expect(thermocoupleRangeMillivolts('K').high).toBeCloseTo(54.886364, 6);
    expect(thermocoupleRangeMillivolts('S').low).toBeCloseTo(-0.235555, 5);
    expect(thermocoupleTempC('K', 54.8863)).toBeGreaterThan(1371.99);
    expect(thermocoupleTempC('J', thermocoupleMillivolts('J', 1200))).toBe(1200);
  });

  it('type B is not single-valued near room temperature and is inverted from 250 °C only', () => {
    expect(thermocoupleMillivolts('B', 21.02)).toBeCloseTo(-0.002585, 6);
    expect(thermocoupleMillivolts('B', 42)).toBeCloseTo(0, 3);
    expect(thermocoupleInverseRangeC('B').low).toBe(250);
    expect(() => thermocoupleTempC('B', 0.002)).toThrow(RangeError);
  });

  it('the sensitivity of type K varies between 39 and 43 µV/K', () => {
    const rows: [number, number][] = [
      [25, 40.518],
      [100, 41.369],
      [300, 41.446],
      [500, 42.628],
      [800, 41],
      [1000, 38.981],
    ];
    for (const [tempC, expected] of rows) expect(thermocoupleSensitivityUvPerK('K', tempC)).toBeCloseTo(expected, 2);
  });
});

describe('platinum probe mistakes', () => {
  it('the older curve (A = 3.9827e-3, B = −5.875e-7) would read 1.9 K wrong at the boil', () => {
    const olderOhm = 100 * (1 + 3.9827e-3 * 100 - 5.875e-7 * 1e4);
    expect(platinumTempC(olderOhm) - 100).toBeCloseTo(1.93, 1);
    expect(platinumOhm(100)).toBeCloseTo(138.5055, 4);
  });
});

describe('boiling mistakes', () => {
  it('water under 101.325 kPa boils at 99.974 °C, and at 100 °C its pressure is 101.418 kPa', () => {
    expect(boilingPointC(101_325)).toBeCloseTo(99.974, 3);
    expect(saturationPressurePa(100) / 1000).toBeCloseTo(101.418, 3);
  });

  it('5000 m on a map is not 5000 m geopotential: 54 048.3 against 54 019.9 Pa', () => {
    expect(standardPressureAtGeometricPa(5000)).toBeCloseTo(54_048.3, 1);
    expect(standardPressureAtGeopotentialPa(5000)).toBeCloseTo(54_019.9, 1);
  });

  it('a pressure in hPa or kPa is refused instead of boiling at 7 °C', () => {
    expect(() => boilingPointC(1013.25)).toThrow(/air pressure at the place must lie from 30000 to 110000 Pa/);
    expect(() => boilingPointC(101.325)).toThrow(RangeError);
  });

  it('litres read hot are not kilograms: 30 L at 95 °C is 1.14 kg short', () => {
    expect(30 - waterMassKg(30, 95)).toBeCloseTo(1.143, 2);
  });

  it('a constant 4.186 kJ/(kg·K) and a constant 2257 kJ/kg stay within 0.1 and 0.4 % for a pot', () => {
    const riseJ = waterEnthalpyJPerKg(99) - waterEnthalpyJPerKg(22);
    expect(Math.abs(riseJ / (4186 * 77) - 1)).toBeLessThan(0.001);
    expect(Math.abs(vaporisationJPerKg(96.69) / 2_257_000 - 1)).toBeLessThan(0.004);
  });
});

describe('fuel mistakes', () => {
  it('20 % wet basis is 25 % dry basis', () => {
    expect(moistureDryFromWet(0.2)).toBeCloseTo(0.25, 12);
    expect(moistureWetFromDry(0.2)).toBeCloseTo(1 / 6, 12);
    expect(moistureDryFromWet(0.5)).toBe(1);
    expect(moistureDryFromWet(0.16)).toBeCloseTo(0.1905, 4);
    expect(moistureWetFromMasses(250, 200)).toBeCloseTo(0.2, 12);
  });

  it('20 % dry basis read as wet basis lowers the energy by 4.9 %', () => {
    const right = netAsReceivedMJPerKg(19, moistureWetFromDry(0.2));
    expect(right / netAsReceivedMJPerKg(19, 0.2) - 1).toBeCloseTo(0.0486, 4);
  });

  it('water in fuel takes 24.43 J/g per cent (at 25 °C), not the 22.57 of boiling water', () => {
    expect(WATER_IN_FUEL_MJ_PER_KG).toBe(2.443);
    expect(Math.abs(vaporisationJPerKg(25) / 1e6 - WATER_IN_FUEL_MJ_PER_KG)).toBeLessThan(0.002);
    expect(netAsReceivedMJPerKg(18.5, 0.2)).toBeCloseTo(14.3114, 4);
  });

  it('a moisture in per cent is refused instead of giving a negative fuel', () => {
    expect(() => netAsReceivedMJPerKg(19, 20)).toThrow(/wet basis must lie from 0 to 1/);
  });
});

describe('flue gas mistakes', () => {
  it('air of 20.9 and of 21 % oxygen give different air ratios, so the choice is named', () => {
    expect(airRatioFromOxygen(13, 20.9)).toBeCloseTo(2.6456, 4);
    expect(airRatioFromOxygen(13, 21)).toBeCloseTo(2.625, 4);
  });
});

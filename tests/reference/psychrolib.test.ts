import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  boilingPointC,
  standardPressureAtGeopotentialPa,
  stationPressureFromAltimeterSettingPa,
  stationPressureFromSeaLevelPa,
} from '../../shared/physics/atmosphere.ts';
import { saturationPressurePa } from '../../shared/physics/water.ts';

// An independent implementation: the psychrometric functions of the ASHRAE Handbook (Fundamentals 2017, chapter 1), as
// implemented by the open-source library psychrolib.
describe('agreement with the psychrometric library', () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));

  it('on the vapour pressure of water from 1 to 110 °C, to 0.05 %', () => {
    for (let tempC = 1; tempC <= 110; tempC += 1) {
      expect(Math.abs(saturationPressurePa(tempC) / psychrolib.GetSatVapPres(tempC) - 1)).toBeLessThan(5e-4);
    }
  });

  it('on the standard atmosphere to 5 km, to 0.01 %', () => {
    for (let altitudeM = -500; altitudeM <= 5000; altitudeM += 250) {
      const ratio = standardPressureAtGeopotentialPa(altitudeM) / psychrolib.GetStandardAtmPressure(altitudeM);
      expect(Math.abs(ratio - 1)).toBeLessThan(1e-4);
    }
  });

  it('on the station pressure under a mean-sea-level pressure, to 0.1 %', () => {
    for (const [seaLevelPa, altitudeM, airTempC] of [
      [101_325, 1500, 15],
      [103_000, 800, -10],
      [99_000, 2500, 25],
    ] as const) {
      const expected = psychrolib.GetStationPressure(seaLevelPa, altitudeM, airTempC);
      expect(Math.abs(stationPressureFromSeaLevelPa(seaLevelPa, altitudeM, airTempC) / expected - 1)).toBeLessThan(
        1e-3,
      );
    }
  });

  it('converts a standard altimeter setting to the standard atmosphere', () => {
    const stationPa = stationPressureFromAltimeterSettingPa(101_325, 1500);
    expect(boilingPointC(stationPa)).toBeCloseTo(94.984, 3);
  });
});

import { describe, expect, it } from 'vitest';
import { geopotentialAltitudeM, stationPressureFromSeaLevelPa } from '../../shared/physics/atmosphere.ts';
import { siegertStackLossPercent } from '../../shared/physics/flue-gas.ts';
import { findFuelGas } from '../../shared/physics/fuel-gases.ts';
import { findMaterial } from '../../shared/physics/heat-capacity.ts';
import { contentsMeanTempC, cylinderAxisLagK, cylinderSettlingTimeS } from '../../shared/physics/lagging-contents.ts';
import { moistureWetFromMasses } from '../../shared/physics/moisture.ts';
import { platinumTempC } from '../../shared/physics/resistance-probe.ts';
import { stackedMassKg } from '../../shared/physics/stacked-wood.ts';
import { betaFromPoints, steinhartHartFromPoints, steinhartHartTempC } from '../../shared/physics/thermistor.ts';
import { thermocoupleTempC, thermocoupleToleranceK } from '../../shared/physics/thermocouple.ts';
import { saturationTempC, vaporisationJPerKg, waterDensityKgPerM3, waterMassKg } from '../../shared/physics/water.ts';
import { findWoodSpecies } from '../../shared/physics/wood-species.ts';

// A wrong argument throws one kind of error whose message has the quantity, the accepted range, the unit and the value.
describe('a value outside the published range', () => {
  it.each<[string, () => unknown, RegExp]>([
    ['ice', () => waterDensityKgPerM3(-1), /temperature of the water must lie from 0 to 110 °C; it was given as -1 °C/],
    ['superheated water', () => vaporisationJPerKg(111), /from 0 to 110 °C/],
    ['not a number', () => waterDensityKgPerM3(Number.NaN), /it was given as NaN °C/],
    ['a negative volume', () => waterMassKg(-1, 20), /volume of water must be at least 0 L; it was given as -1 L/],
    ['an infinite volume', () => waterMassKg(Number.POSITIVE_INFINITY, 20), /it was given as Infinity L/],
    ['a vacuum', () => saturationTempC(100), /pressure of saturated water/],
    ['a mountain that does not exist', () => geopotentialAltitudeM(12_000), /altitude must lie from -500 to 9000 m/],
    ['air on the moon', () => stationPressureFromSeaLevelPa(101_325, 0, -150), /air temperature must lie from -60/],
    ['an open thermocouple', () => thermocoupleTempC('K', 1250), /voltage of a type K thermocouple must lie from/],
    ['no temperature', () => thermocoupleToleranceK('K', '2', Number.NaN), /it was given as NaN/],
    [
      'a shorted platinum probe',
      () => platinumTempC(0),
      /resistance of a platinum probe must lie from 18.5201 to 390.481 Ω/,
    ],
    ['an open thermistor', () => steinhartHartTempC(1e12, { a: 1e-3, b: 2e-4, c: 1e-7 }), /resistance of a thermistor/],
    ['nonsense coefficients', () => steinhartHartTempC(1e4, { a: 1, b: 0, c: 0 }), /temperature of a thermistor/],
    ['one point twice', () => betaFromPoints({ ohm: 10, tempC: 5 }, { ohm: 20, tempC: 5 }), /must differ/],
    ['an oven sample that gained', () => moistureWetFromMasses(100, 101), /oven-dry sample must lie from 0 to 100;/],
    ['an empty sample', () => moistureWetFromMasses(0, 0), /wet sample must be above 0;/],
    ['clean air in the flue', () => siegertStackLossPercent(200, 20, 0), /CO2 in the dry flue gas must lie from 0.5/],
    ['moisture in per cent', () => stackedMassKg(1, 400, 20), /wet basis must lie from 0 to 0.7/],
    ['a frozen bath', () => contentsMeanTempC(-60, 0), /temperature of the bath/],
    ['a radius in millimetres', () => cylinderAxisLagK(0.01, 50), /radius must lie from 0 to 0.5 m/],
  ])('is refused: %s', (_what, use, sentence) => {
    expect(use).toThrow(RangeError);
    expect(use).toThrow(sentence);
  });

  it('is refused for thermistor points that do not define a curve', () => {
    const point = { ohm: 10_000, tempC: 25 };
    expect(() => steinhartHartFromPoints([point, point, { ohm: 1000, tempC: 80 }])).toThrow(/must differ/);
  });
});

describe('looking a material up by name', () => {
  it('finds it in any case and returns undefined for an unknown one', () => {
    expect(findWoodSpecies(' Beech ')?.id).toBe('beech');
    expect(findWoodSpecies('teak')).toBeUndefined();
    expect(findFuelGas('Propane')).toBe('propane');
    expect(findFuelGas('helium')).toBeUndefined();
    expect(findMaterial('StainlessSteel')).toBe('stainlessSteel');
    expect(findMaterial('cheese')).toBeUndefined();
  });
});

describe('goods that lag the bath', () => {
  // Worked by hand: 0.9 K/min, 5 cm radius, 1.5e-7 m²/s: 0.015·0.0025/(4·1.5e-7) = 62.5 K; 0.0025/(5.783·1.5e-7) = 48 min.
  it('have the lag of a long cylinder in steady heating', () => {
    expect(cylinderAxisLagK(0.9 / 60, 0.05)).toBeCloseTo(62.5, 10);
    expect(cylinderSettlingTimeS(0.05) / 60).toBeCloseTo(48.03, 2);
    expect(contentsMeanTempC(100, 40)).toBe(70);
  });

  // An independent route: the heat equation of the cylinder stepped in time by finite volumes.
  it('agree with a stepped solution of the heat equation', () => {
    const rings = 40;
    const radiusM = 0.05;
    const diffusivity = 1.5e-7;
    const widthM = radiusM / rings;
    const rateKPerS = 0.015;
    const stepS = 2;
    let tempsC = new Array<number>(rings).fill(20);
    let bathC = 20;
    for (let elapsedS = 0; elapsedS < 5 * cylinderSettlingTimeS(radiusM); elapsedS += stepS) {
      bathC += rateKPerS * stepS;
      tempsC = tempsC.map((here, ring) => {
        const inward = ring === 0 ? 0 : ring * (tempsC[ring - 1]! - here);
        const outward = ring === rings - 1 ? 2 * rings * (bathC - here) : (ring + 1) * (tempsC[ring + 1]! - here);
        return here + (stepS * diffusivity * (inward + outward)) / ((ring + 0.5) * widthM * widthM);
      });
    }
    const lagK = cylinderAxisLagK(rateKPerS, radiusM);
    expect(Math.abs((bathC - tempsC[0]!) / lagK - 1)).toBeLessThan(0.01);
    const meanC = tempsC.reduce((sum, here, ring) => sum + here * (2 * ring + 1), 0) / (rings * rings);
    expect(Math.abs((meanC - contentsMeanTempC(bathC, tempsC[0]!)) / lagK)).toBeLessThan(0.01);
  });
});

describe('stacked wood', () => {
  it('has the same dry mass when it is wetter, and an uncertainty of 15 %', () => {
    const { value, standardUncertainty } = stackedMassKg(2, 435, 0.3);
    expect(value).toBeCloseTo((2 * 435 * 0.85) / 0.7, 9);
    expect(standardUncertainty / value).toBeCloseTo(0.15, 12);
  });
});

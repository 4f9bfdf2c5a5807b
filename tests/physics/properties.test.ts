import { describe, expect, it } from 'vitest';
import {
  boilingPointC,
  geometricAltitudeFromPressureM,
  geometricAltitudeM,
  geopotentialAltitudeFromPressureM,
  geopotentialAltitudeM,
  standardPressureAtGeometricPa,
  standardPressureAtGeopotentialPa,
  stationPressureFromAltimeterSettingPa,
} from '../../shared/physics/atmosphere.ts';
import { netAsReceivedMJPerKg, netDryMJPerKg } from '../../shared/physics/fuel.ts';
import { integerPower } from '../../shared/physics/integer-power.ts';
import { moistureDryFromWet, moistureWetFromDry } from '../../shared/physics/moisture.ts';
import { platinumOhm, platinumSensitivityOhmPerK, platinumTempC } from '../../shared/physics/resistance-probe.ts';
import {
  betaOhm,
  betaTempC,
  steinhartHartFromPoints,
  steinhartHartOhm,
  steinhartHartTempC,
} from '../../shared/physics/thermistor.ts';
import {
  compensatedTempC,
  THERMOCOUPLE_TYPES,
  thermocoupleInverseRangeC,
  thermocoupleMillivolts,
  thermocoupleRangeC,
  thermocoupleSensitivityUvPerK,
  thermocoupleTempC,
} from '../../shared/physics/thermocouple.ts';
import { THERMOCOUPLE_FUNCTIONS } from '../../shared/physics/thermocouple-coefficients.ts';
import { convert, DISPLAY_UNITS, UNITS, type UnitId } from '../../shared/physics/units.ts';
import {
  saturationPressurePa,
  saturationSlopePaPerK,
  saturationTempC,
  vaporisationJPerKg,
  waterDensityKgPerM3,
  waterEnthalpyJPerKg,
  waterSpecificHeatJPerKgK,
} from '../../shared/physics/water.ts';
import fc from '../support/properties.ts';

function within(min: number, max: number) {
  return fc.double({ min, max, noNaN: true });
}

/** Slope by central difference, for comparison with an analytic one. */
function numericSlope(f: (x: number) => number, x: number, step: number): number {
  return (f(x + step) - f(x - step)) / (2 * step);
}

describe('thermocouples', () => {
  /** Distance to the nearest joint between two pieces, where the published functions differ by up to 2e-6 °C. */
  function jointDistance(type: (typeof THERMOCOUPLE_TYPES)[number], tempC: number): number {
    return Math.min(...THERMOCOUPLE_FUNCTIONS[type].forward.map((piece) => Math.abs(piece.toC - tempC)));
  }

  it.each(THERMOCOUPLE_TYPES)('of type %s return the temperature to 1e-9 °C', (type) => {
    const { low, high } = thermocoupleInverseRangeC(type);
    fc.assert(
      fc.property(within(low, high), (tempC) => {
        const errorK = Math.abs(thermocoupleTempC(type, thermocoupleMillivolts(type, tempC)) - tempC);
        expect(errorK).toBeLessThan(jointDistance(type, tempC) > 1e-5 ? 1e-9 : 2e-6);
      }),
    );
  });

  it.each(THERMOCOUPLE_TYPES)('of type %s rise with temperature over the range that is inverted', (type) => {
    const { low, high } = thermocoupleInverseRangeC(type);
    fc.assert(
      fc.property(within(low, high - 0.01), (tempC) => {
        expect(thermocoupleMillivolts(type, tempC + 0.01)).toBeGreaterThan(thermocoupleMillivolts(type, tempC));
      }),
    );
  });

  it.each(THERMOCOUPLE_TYPES)('of type %s have the sensitivity of their numeric slope', (type) => {
    const { low, high } = thermocoupleRangeC(type);
    fc.assert(
      fc.property(within(low + 1, high - 1), (tempC) => {
        fc.pre(jointDistance(type, tempC) > 0.02);
        const numeric = 1000 * numericSlope((x) => thermocoupleMillivolts(type, x), tempC, 0.01);
        expect(Math.abs(thermocoupleSensitivityUvPerK(type, tempC) - numeric)).toBeLessThan(2e-4);
      }),
    );
  });

  it('read the same whatever the temperature of the cold junction', () => {
    fc.assert(
      fc.property(within(-20, 60), within(-100, 1200), (coldC, hotC) => {
        const measured = thermocoupleMillivolts('K', hotC) - thermocoupleMillivolts('K', coldC);
        expect(Math.abs(compensatedTempC('K', measured, coldC) - hotC)).toBeLessThan(1e-6);
      }),
    );
  });
});

describe('resistance probes and thermistors', () => {
  it('platinum returns the temperature and has the slope of its numeric derivative', () => {
    fc.assert(
      fc.property(within(-199, 849), fc.constantFrom(100, 500, 1000), (tempC, nominalOhm) => {
        expect(Math.abs(platinumTempC(platinumOhm(tempC, nominalOhm), nominalOhm) - tempC)).toBeLessThan(1e-9);
        const numeric = numericSlope((x) => platinumOhm(x, nominalOhm), tempC, 0.01);
        expect(Math.abs(platinumSensitivityOhmPerK(tempC, nominalOhm) / numeric - 1)).toBeLessThan(1e-6);
      }),
    );
  });

  it('a Steinhart–Hart fit passes through its points and returns every temperature', () => {
    fc.assert(
      fc.property(
        within(-20, 15),
        within(20, 60),
        within(70, 150),
        within(2500, 5000),
        within(-50, 200),
        (...drawn) => {
          const [cold, middle, hot, betaK, probeC] = drawn;
          // A thermistor that deviates from the beta equation, as real ones do.
          const ohm = (tempC: number) =>
            betaOhm(tempC, { betaK: betaK + 0.5 * tempC, ohmAtReference: 10_000, referenceTempC: 25 });
          const points = [cold, middle, hot].map((tempC) => ({ tempC, ohm: ohm(tempC) }));
          const fit = steinhartHartFromPoints(points as [(typeof points)[0], (typeof points)[0], (typeof points)[0]]);
          for (const point of points) {
            expect(Math.abs(steinhartHartTempC(point.ohm, fit) - point.tempC)).toBeLessThan(1e-8);
          }
          fc.pre(fit.b > 0 && fit.c >= 0);
          expect(Math.abs(steinhartHartTempC(steinhartHartOhm(probeC, fit), fit) - probeC)).toBeLessThan(1e-8);
        },
      ),
    );
  });

  it('the beta equation returns the temperature', () => {
    fc.assert(
      fc.property(within(-40, 200), within(2000, 5000), (tempC, betaK) => {
        const beta = { betaK, ohmAtReference: 10_000, referenceTempC: 25 };
        expect(Math.abs(betaTempC(betaOhm(tempC, beta), beta) - tempC)).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('water', () => {
  it('has a saturation line that is its own inverse, rises, and has the slope of its numeric derivative', () => {
    fc.assert(
      fc.property(within(0.01, 370), (tempC) => {
        expect(Math.abs(saturationTempC(saturationPressurePa(tempC)) - tempC)).toBeLessThan(1e-8);
        expect(saturationPressurePa(tempC + 0.01)).toBeGreaterThan(saturationPressurePa(tempC));
        const numeric = numericSlope(saturationPressurePa, tempC, 0.005);
        expect(Math.abs(saturationSlopePaPerK(tempC) / numeric - 1)).toBeLessThan(1e-6);
      }),
    );
  });

  it('takes up heat by its specific heat: the slope of the enthalpy is cp', () => {
    fc.assert(
      fc.property(within(0.1, 99.9), (tempC) => {
        const numeric = numericSlope(waterEnthalpyJPerKg, tempC, 0.01);
        expect(Math.abs(waterSpecificHeatJPerKgK(tempC) / numeric - 1)).toBeLessThan(1e-6);
      }),
    );
  });

  it('gets lighter above 4 °C and easier to evaporate all the way', () => {
    fc.assert(
      fc.property(within(4, 109.9), (tempC) => {
        expect(waterDensityKgPerM3(tempC + 0.1)).toBeLessThan(waterDensityKgPerM3(tempC));
        expect(vaporisationJPerKg(tempC + 0.1)).toBeLessThan(vaporisationJPerKg(tempC));
      }),
    );
  });

  // Clausius–Clapeyron, L = T·(dp/dT)·(v″ − v′), with the ideal-gas volume of steam: accurate to the 1.5 % by which
  // steam near the boil deviates from an ideal gas.
  it('has a heat of vaporisation that agrees with the slope of its saturation line', () => {
    fc.assert(
      fc.property(within(1, 110), (tempC) => {
        const tempK = tempC + 273.15;
        const steamM3PerKg = (461.526 * tempK) / saturationPressurePa(tempC);
        const fromSlope = tempK * saturationSlopePaPerK(tempC) * (steamM3PerKg - 1 / waterDensityKgPerM3(tempC));
        const ratio = fromSlope / vaporisationJPerKg(tempC);
        expect(ratio).toBeGreaterThan(1 - 1e-3);
        expect(ratio).toBeLessThan(1.025);
      }),
    );
  });
});

describe('air', () => {
  it('converts altitudes and pressures there and back', () => {
    fc.assert(
      fc.property(within(-400, 8900), (altitudeM) => {
        expect(geometricAltitudeM(geopotentialAltitudeM(altitudeM))).toBeCloseTo(altitudeM, 6);
        expect(geopotentialAltitudeFromPressureM(standardPressureAtGeopotentialPa(altitudeM))).toBeCloseTo(
          altitudeM,
          6,
        );
        expect(geometricAltitudeFromPressureM(standardPressureAtGeometricPa(altitudeM))).toBeCloseTo(altitudeM, 6);
        expect(stationPressureFromAltimeterSettingPa(101_325, altitudeM)).toBeCloseTo(
          standardPressureAtGeometricPa(altitudeM),
          5,
        );
      }),
    );
  });

  it('has a boiling point that falls with altitude', () => {
    fc.assert(
      fc.property(within(-400, 8000), (altitudeM) => {
        const here = boilingPointC(standardPressureAtGeometricPa(altitudeM));
        expect(boilingPointC(standardPressureAtGeometricPa(altitudeM + 1))).toBeLessThan(here);
      }),
    );
  });
});

describe('fuel', () => {
  it('converts moisture bases and heating values there and back', () => {
    fc.assert(
      fc.property(within(0, 0.8), within(10, 40), (moisture, netDry) => {
        expect(moistureWetFromDry(moistureDryFromWet(moisture))).toBeCloseTo(moisture, 12);
        expect(netDryMJPerKg(netAsReceivedMJPerKg(netDry, moisture), moisture)).toBeCloseTo(netDry, 9);
      }),
    );
  });

  it('yields less the wetter it is', () => {
    fc.assert(
      fc.property(within(0, 0.98), within(5, 40), (moisture, netDry) => {
        expect(netAsReceivedMJPerKg(netDry, moisture + 0.01)).toBeLessThan(netAsReceivedMJPerKg(netDry, moisture));
      }),
    );
  });
});

describe('units', () => {
  const ids = Object.keys(UNITS) as UnitId[];
  const pairs = ids.flatMap((from) =>
    ids.filter((to) => UNITS[to].dimension === UNITS[from].dimension).map((to) => [from, to] as const),
  );

  it('convert there and back within a few last bits', () => {
    fc.assert(
      fc.property(fc.constantFrom(...pairs), within(-1e6, 1e6), ([from, to], value) => {
        const back = convert(convert(value, from, to), to, from);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-12 * Math.abs(value) + 1e-11);
      }),
    );
  });

  it('have a unit for every dimension in both systems, of that dimension', () => {
    for (const system of Object.values(DISPLAY_UNITS)) {
      for (const [dimension, id] of Object.entries(system)) expect(UNITS[id].dimension).toBe(dimension);
    }
    expect(Object.keys(DISPLAY_UNITS.si)).toEqual(Object.keys(DISPLAY_UNITS.usCustomary));
  });
});

describe('integer powers', () => {
  it('equal repeated multiplication and invert for negative exponents', () => {
    fc.assert(
      fc.property(within(0.3, 3), fc.integer({ min: -40, max: 40 }), (base, exponent) => {
        expect(Math.abs(integerPower(base, exponent) / base ** exponent - 1)).toBeLessThan(1e-13);
      }),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { analyse, resultOf } from '../../shared/analysis/analyse.ts';
import type { BurnRecord, MethodSet } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { ResultId, ValueResult } from '../../shared/contract/results.ts';
import { calibratedProbe, dryWood, exactScale, makeBurn, mark, place, ramp } from './support/hand-made-burn.ts';

/**
 * One burn under every convention: W0 = 5 kg, W1 = 4.6 kg, T0 = 22, T1 = Tb = 99.0 °C, fcm = 750 g at 12 % moisture wet
 * basis, LHV 18.5 MJ/kg, Δc = 30 g at 29.5 MJ/kg, Δt = 25 min, air 22 °C. Expected values worked by hand from the
 * equations of the methods, which are from memory; they test the arithmetic, not the texts.
 */
const worked: BurnRecord = makeBurn({
  waterC: ramp(99, 77 / 24, 300, 22),
  fromS: 0,
  toS: 2100,
  everyS: 1,
  channels: [
    {
      ...calibratedProbe,
      calibration: { version: 1, method: 'referenceProbe', offset: 0, gain: 1, standardUncertainty: 1e-3 },
    },
  ],
  marks: [mark('lit', 300), mark('fireOut', 1800)],
  weighings: [
    { of: 'fuelPile', when: 'start', massKg: 0.75, standardUncertaintyKg: 0.007 },
    { of: 'fuelPile', when: 'end', massKg: 0 },
    { of: 'char', when: 'end', massKg: 0.03, standardUncertaintyKg: 0.003 },
    { of: 'water', when: 'start', massKg: 5, tempC: 22 },
    { of: 'water', when: 'end', massKg: 4.6, tempC: 99, lidOn: true, standardUncertaintyKg: 0.007 },
  ],
  record: {
    airTempC: 22,
    // Saturation pressure of water at 99.0 °C (IAPWS-IF97): 97.85185 kPa.
    place: { ...place, stationPressurePa: 97_851.85, standardUncertaintyPa: 1 },
    fuelLots: [
      {
        ...dryWood,
        moisture: { fraction: 0.12, basis: 'wet', how: 'ovenDry', standardUncertainty: 0.02 },
        standardUncertaintyCharMJPerKg: 1,
      },
    ],
    scales: [exactScale],
  },
});

function result(method: MethodSet, id: ResultId, draws = 0): ValueResult {
  const found = resultOf(analyse(worked, { method, draws }), id);
  if (!hasValue(found)) throw new Error(`${id} is missing: ${found.missing.code}`);
  return found;
}

describe('one burn under every published convention', () => {
  const expected: [MethodSet, ResultId, number, number][] = [
    ['water-boil-1985', 'equivalentDryFuel', 0.6042, 1e-6],
    ['water-boil-1985', 'thermalEfficiency', 0.225056, 2e-6],
    ['water-boil-1985', 'specificFuelConsumption', 0.131348, 1e-6],
    ['water-boil-1985', 'burningRate', 24.168 * 0.06, 1e-4],
    ['water-boil-1985', 'firepower', 7451.8, 0.05],
    ['water-boil-4', 'equivalentDryFuel', 0.5996141, 1e-6],
    ['water-boil-4', 'thermalEfficiency', 0.226777, 2e-6],
    ['water-boil-4', 'specificFuelConsumption', 0.130351, 1e-6],
    ['water-boil-4', 'burningRate', 23.9846 * 0.06, 1e-4],
    ['water-boil-4', 'firepower', 7395.24, 0.05],
    ['iso-19867-no-char-credit', 'thermalEfficiency', 0.209707, 2e-6],
    ['iso-19867-no-char-credit', 'fuelEnergy', 11.99013, 1e-5],
    ['iso-19867-char-credit', 'thermalEfficiency', 0.226419, 2e-6],
    ['iso-19867-char-credit', 'fuelEnergy', 11.99013 - 0.885, 1e-5],
    ['iso-19867-char-credit', 'cookingPower', 2514.41 / 1.5, 0.02],
  ];
  it.each(expected)('%s gives %s as %d', (method, id, value, tolerance) => {
    expect(Math.abs(result(method, id).value - value)).toBeLessThan(tolerance);
  });

  it('gives bench-1 the same efficiency but for its exact water properties', () => {
    // IAPWS-IF97 instead of 4.186 and 2257 kJ: 322.50 against 322.32 kJ/kg from 22 to 99 °C. Evaporation counts at the temperature
    // at which it happened: between 2259 kJ/kg, all of it at 99 °C, and 2309 kJ/kg, all of it at 80 °C.
    const efficiency = (vaporisation: number) => (5 * 322.5 + 0.4 * vaporisation) / (11_990.13 - 885);
    const { value } = result('bench-1', 'thermalEfficiency');
    expect(value).toBeGreaterThan(efficiency(2259));
    expect(value).toBeLessThan(efficiency(2309));
  });

  it('corrects time and specific consumption to a rise of 75 K in addition to the plain value, never instead of it', () => {
    const { remarks } = result('water-boil-4', 'specificFuelConsumption');
    const corrected = remarks.find(({ code }) => code === 'temperatureCorrected')?.params.corrected;
    expect(Number(corrected)).toBeCloseTo(0.126965, 5);
  });

  it('spreads over two percentage points of efficiency between methods for the very same burn', () => {
    const methods: MethodSet[] = [
      'water-boil-1985',
      'water-boil-4',
      'iso-19867-char-credit',
      'iso-19867-no-char-credit',
      'bench-1',
    ];
    const values = methods.map((method) => result(method, 'thermalEfficiency').value);
    expect(Math.max(...values) - Math.min(...values)).toBeGreaterThan(0.016);
  });
});

describe('the uncertainty budget of that burn', () => {
  const { budget, standardUncertainty, interval95 } = result('water-boil-4', 'thermalEfficiency', 100_000);
  const contribution = (input: string) => 100 * (budget?.find((entry) => entry.input === input)?.contribution ?? 0);

  // Contributions in percentage points by the law of propagation, worked by hand: u(m) 0.02, u(LHV) 0.3, u(LHVc) 1 MJ/kg,
  // u(fcm) 7 g, u(Δc) 3 g, u(w) 7 g.
  it.each([
    ['fuelLot.moisture', 0.6464],
    ['fuelLot.heatingValue', 0.4048],
    ['fuelLot.charHeatingValue', 0.0613],
    ['weighing.fuelPile', 0.2285],
    ['weighing.char', 0.1809],
    ['weighing.waterAfter', 0.1426],
  ])('gives %s its share', (input, points) => {
    expect(contribution(input)).toBeCloseTo(points, 2);
  });

  it('gives each contribution its sign', () => {
    const sign = (input: string) => budget?.find((entry) => entry.input === input)?.sign;
    expect([sign('fuelLot.moisture'), sign('fuelLot.heatingValue'), sign('weighing.fuelPile')]).toEqual([1, -1, 1]);
  });

  it('lists moisture and heating value first: the thermometer does not limit an efficiency', () => {
    expect(budget?.slice(0, 2).map(({ input }) => input)).toEqual(['fuelLot.moisture', 'fuelLot.heatingValue']);
  });

  it('gives the interval of a separate Monte Carlo run, 21.1 to 24.5 %', () => {
    expect(100 * standardUncertainty!).toBeCloseTo(0.84, 1);
    expect(100 * interval95![0]).toBeCloseTo(21.13, 1);
    expect(100 * interval95![1]).toBeCloseTo(24.43, 1);
  });
});

describe('traps of the published formulas', () => {
  it('credits the char once: it is in the equivalent dry fuel and not again in the denominator', () => {
    const fd = result('water-boil-4', 'equivalentDryFuel').value;
    const useful = (4.186e-3 * 5 * 77 + 2.26 * 0.4) / (fd * 18.5);
    expect(result('water-boil-4', 'thermalEfficiency').value).toBeCloseTo(useful, 8);
  });

  it('counts grams times kilojoules per kilogram as joules: firepower is in watts, not in kilowatts or milliwatts', () => {
    expect(result('water-boil-4', 'firepower').value).toBeGreaterThan(5000);
    expect(result('water-boil-4', 'firepower').value).toBeLessThan(10_000);
  });

  it('refuses a temperature correction when the water does not get warmer, instead of dividing by zero', () => {
    const cold = { ...worked, target: { kind: 'temperature' as const, tempC: 22 } };
    const flat: BurnRecord = {
      ...cold,
      readings: worked.readings.map((block) => ({
        ...block,
        columns: block.columns.map((column) => ({ ...column, counts: column.counts.map(() => 22_000) })),
      })),
    };
    const analysis = analyse(flat, { method: 'water-boil-4', draws: 0 });
    const consumption = resultOf(analysis, 'specificFuelConsumption');
    expect(hasValue(consumption) ? consumption.remarks.map(({ code }) => code) : []).not.toContain(
      'temperatureCorrected',
    );
    expect(JSON.stringify(analysis)).not.toMatch(/null|NaN|Infinity/);
  });

  it('refuses an efficiency when the weighed char would contain more heat than the fuel', () => {
    const burnt = {
      ...worked,
      weighings: worked.weighings.map((weighing) => (weighing.of === 'char' ? { ...weighing, massKg: 0.7 } : weighing)),
    };
    for (const method of ['bench-1', 'water-boil-1985', 'water-boil-4', 'iso-19867-char-credit'] as const) {
      expect(resultOf(analyse(burnt, { method, draws: 0 }), 'thermalEfficiency')).toMatchObject({
        missing: { code: 'charExceedsFuel' },
      });
    }
  });

  it('converts 20 % dry basis to 16.7 % wet basis', () => {
    const onBasis = (basis: 'wet' | 'dry') => {
      const fuelLots = [{ ...worked.fuelLots[0]!, moisture: { fraction: 0.2, basis, how: 'meter' as const } }];
      const found = resultOf(analyse({ ...worked, fuelLots }, { draws: 0 }), 'thermalEfficiencyNoCharCredit');
      return hasValue(found) ? 1 / found.value : Number.NaN;
    };
    // 18.5·(1 − M) − 2.443·M at M = 1/6 and at M = 0.2.
    expect(onBasis('dry') / onBasis('wet')).toBeCloseTo((18.5 * (5 / 6) - 2.443 / 6) / (18.5 * 0.8 - 2.443 * 0.2), 6);
  });
});

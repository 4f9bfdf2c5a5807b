import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, methodSets } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { analysisSchema, resultIds } from '../../shared/contract/results.ts';
import { whyMissing } from './support/asking.ts';
import { type HandMadeBurn, id, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

const without = (kind: string): BurnRecord =>
  makeBurn({ ...plainBurn, marks: plainBurn.marks.filter((item) => item.kind !== kind) });
const unweighed = (of: string, when: string): BurnRecord =>
  makeBurn({ ...plainBurn, weighings: plainBurn.weighings.filter((item) => !(item.of === of && item.when === when)) });
const weighed = (of: string, when: string, massKg: number): BurnRecord =>
  makeBurn({
    ...plainBurn,
    weighings: plainBurn.weighings.map((item) =>
      item.of === of && item.when === when ? { ...item, massKg } : item,
    ) as HandMadeBurn['weighings'],
  });

describe('missing data make only the results missing that depend on them', () => {
  it.each([
    ['the water before', unweighed('water', 'start'), 'thermalEfficiency', 'waterNotWeighedBefore'],
    ['the water after', unweighed('water', 'end'), 'thermalEfficiency', 'waterNotWeighedAfter'],
    ['the water after', unweighed('water', 'end'), 'evaporatedWater', 'waterNotWeighedAfter'],
    ['the char', unweighed('char', 'end'), 'thermalEfficiency', 'charNotWeighed'],
    ['the char', unweighed('char', 'end'), 'dryWoodPerBatch', 'charNotWeighed'],
    [
      'the end of the fire',
      makeBurn({ ...plainBurn, waterC: ramp(200, 0.5), marks: plainBurn.marks.slice(0, 1) }),
      'firepower',
      'fireOutUnknown',
    ],
    [
      'the air pressure',
      makeBurn({ ...plainBurn, record: { place: { id: id(201), name: 'yard' } }, toS: 5400 }),
      'localBoilingPoint',
      'boilingPointUnknown',
    ],
    ['a flue probe', makeBurn(plainBurn), 'stackLoss', 'noFlueTemperature'],
    ['body probes', makeBurn(plainBurn), 'stoveBodyHeat', 'tooFewBodyProbes'],
  ] as const)('without %s', (_what, record, result, code) => {
    expect(whyMissing(record, result)).toBe(code);
  });

  it('still gives an efficiency without char credit when only the char is missing', () => {
    expect(whyMissing(unweighed('char', 'end'), 'thermalEfficiencyNoCharCredit')).toBeUndefined();
    expect(whyMissing(unweighed('water', 'end'), 'sensibleEfficiency')).toBeUndefined();
    expect(whyMissing(unweighed('water', 'end'), 'timeToBoil')).toBeUndefined();
  });

  it('finds lit and fire out from the curves where they are not marked, with their uncertainty', () => {
    const { moments } = analyse(without('lit'), { draws: 0 });
    expect(moments.find(({ kind }) => kind === 'lit')).toMatchObject({ source: 'detected' });
    expect(Math.abs(moments.find(({ kind }) => kind === 'lit')!.elapsedS - 300)).toBeLessThan(60);
  });

  it('has the results of the scale without readings', () => {
    const record = { ...makeBurn(plainBurn), readings: [], channels: [] };
    expect(whyMissing(record, 'timeToBoil')).toBe('noWaterTemperature');
    expect(whyMissing(record, 'dryWoodPerBatch')).toBe('noWaterTemperature');
    expect(whyMissing(record, 'equivalentDryFuel')).toBeUndefined();
    expect(whyMissing(record, 'thermalEfficiency')).toBeUndefined();
  });
});

describe('impossible weighings', () => {
  it.each([
    ['more fuel left than brought', weighed('fuelPile', 'end', 6), 'dryWoodPerBatch', 'moreFuelLeftThanBrought'],
    ['as much fuel left as brought', weighed('fuelPile', 'end', 5), 'firepower', 'moreFuelLeftThanBrought'],
    ['more water left than brought', weighed('water', 'end', 21), 'thermalEfficiency', 'moreWaterLeftThanBrought'],
    ['more char than the fuel could leave', weighed('char', 'end', 3), 'thermalEfficiency', 'charExceedsFuel'],
  ] as const)('%s return a reason, not a number', (_what, record, result, code) => {
    expect(whyMissing(record, result)).toBe(code);
  });

  it('accepts a few grams of water too many as none evaporated', () => {
    const record = weighed('water', 'end', 20.02);
    expect(whyMissing(record, 'evaporatedWater')).toBeUndefined();
  });
});

describe('every result', () => {
  const hostile: [string, BurnRecord][] = [
    ['a plain burn', makeBurn(plainBurn)],
    ['no fuel at all', makeBurn({ ...plainBurn, record: { fuelLots: [] } })],
    [
      'soaking wood',
      makeBurn({
        ...plainBurn,
        record: {
          fuelLots: [{ id: id(300), name: 'bog', kind: 'wood', moisture: { fraction: 3, basis: 'dry', how: 'guess' } }],
        },
      }),
    ],
    ['one reading', makeBurn({ ...plainBurn, toS: 0 })],
    ['only faults', makeBurn({ ...plainBurn, reads: () => null })],
    [
      'marks in the wrong order',
      makeBurn({
        ...plainBurn,
        marks: [mark('fireOut', 10), mark('lit', 7000), mark('holdEnd', 5), mark('holdStart', 9000)],
      }),
    ],
    ['marks before recording began', makeBurn({ ...plainBurn, marks: [mark('lit', -900), mark('fireOut', 7500)] })],
    ['two readings an hour', makeBurn({ ...plainBurn, everyS: 1800 })],
    [
      'no marks and no weighings',
      makeBurn({ ...plainBurn, marks: [], weighings: [], record: { hold: { durationS: 600, onDrop: 'restart' } } }),
    ],
  ];

  it.each(hostile)('is a finite number or a reason for %s, under every method set', (_what, record) => {
    for (const method of methodSets) {
      const analysis = analyse(record, { method, draws: 300 });
      expect(analysisSchema.safeParse(analysis).error?.issues ?? []).toEqual([]);
      expect(analysis.results.map((result) => result.id)).toEqual(resultIds);
      for (const result of analysis.results.filter(hasValue)) {
        const [low, high] = result.interval95!;
        expect(Number.isFinite(result.value) && Number.isFinite(low) && Number.isFinite(high)).toBe(true);
        expect(low).toBeLessThanOrEqual(result.value);
        expect(high).toBeGreaterThanOrEqual(result.value);
      }
    }
  });

  it('names the method set that does not define a result', () => {
    expect(whyMissing(makeBurn(plainBurn), 'dryWoodPerBatch', { method: 'water-boil-4' })).toBe('notDefinedByMethod');
  });
});

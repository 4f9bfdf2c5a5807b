import { describe, expect, test } from 'vitest';
import { alignmentS } from '../../shared/comparison/alignment.ts';
import { costOf } from '../../shared/comparison/cost.ts';
import { designFigures, figureAgainstResult } from '../../shared/comparison/design-figures.ts';
import { driftOf } from '../../shared/comparison/drift.ts';
import { costSchema, driftSchema, pricesSchema } from '../../shared/contract/comparison.ts';
import { constructedBurn } from './constructed-burn.ts';

const day = 86_400_000;
const onDay = (index: number, value: number, revision = '1') =>
  constructedBurn({
    id: `burn ${index}`,
    results: { dryWoodPerBatch: { value } },
    burn: { startedUtcMs: index * day, revision: { id: revision, label: revision } },
  });

describe('level over time', () => {
  const steady = [3, 3.1, 2.9, 3.05, 2.95, 3, 3.1, 2.9];

  test('is steady when the scatter of burns does not change', () => {
    const drift = driftOf(
      steady.map((value, index) => onDay(index, value)),
      'dryWoodPerBatch',
    )!;
    expect(drift.outside).toEqual([]);
    expect(drift.sentence).toMatch(/stays within its limits/);
    expect(driftSchema.parse(drift)).toEqual(drift);
  });

  test('lists the burn with the wet wood', () => {
    const burns = [...steady, 4.5].map((value, index) => onDay(index, value));
    expect(driftOf(burns, 'dryWoodPerBatch')!.outside).toEqual(['burn 8']);
  });

  test('does not count an intended change as drift', () => {
    const burns = [...steady.map((v, i) => onDay(i, v)), ...steady.map((v, i) => onDay(20 + i, 0.7 * v, '2'))];
    const drift = driftOf(burns, 'dryWoodPerBatch')!;
    expect(drift.outside).toEqual([]);
    expect(drift.runs).toEqual([]);
  });

  test('leaves out the only burn of a revision, and needs four', () => {
    const burns = [...steady.map((v, i) => onDay(i, v)), onDay(30, 2, '3')];
    expect(driftOf(burns, 'dryWoodPerBatch')!.leftOut).toEqual(['burn 30']);
    expect(driftOf(burns.slice(0, 3), 'dryWoodPerBatch')).toBeUndefined();
  });
});

describe('cost', () => {
  const batch = (id: string, woodKg: number) =>
    constructedBurn({
      id,
      results: {
        dryWoodPerBatch: { value: woodKg },
        equivalentDryFuel: { value: woodKg },
        fuelEnergy: { value: woodKg * 18.5, unit: 'MJ' },
        thermalEfficiency: { value: 0.2, unit: '1' },
      },
      burn: {
        fuelLots: [{ id: 'oak', name: 'oak', kind: 'wood', moisture: { fraction: 0.2, basis: 'wet', how: 'ovenDry' } }],
        weighings: [{ id: `${id}w`, of: 'water', when: 'start', massKg: 30 }],
      },
    });
  const prices = pricesSchema.parse({
    woodPerKg: 0.2,
    batchesPerSeason: 50,
    bottledGas: { perKg: 2.5 },
    electricity: { perKWh: 0.25 },
  });

  test('agrees with figures worked by hand: 4 kg dry are 5.17 kg as bought at 20 %, 14.8 MJ useful are 0.64 kg of gas or 4.8 kWh', () => {
    const cost = costOf([batch('a', 4), batch('b', 4)], prices)!;
    // 18.5·4 MJ over 18.5·0.8 − 2.443·0.2 MJ/kg.
    const bought = (18.5 * 4) / (18.5 * 0.8 - 2.443 * 0.2);
    expect(cost.woodKgPerBatch.value).toBeCloseTo(bought, 9);
    expect(cost.woodKgPerKgHeated).toBeCloseTo(bought / 30, 9);
    expect(cost.wood!.perBatch.value).toBeCloseTo(0.2 * bought, 9);
    expect(cost.wood!.perSeason!.value).toBeCloseTo(10 * bought, 9);
    expect(cost.usefulMJPerBatch).toBeCloseTo(14.8, 9);
    expect(cost.bottledGas!.kgPerBatch).toBeCloseTo(14.8 / 0.5 / 46, 6);
    expect(cost.electricity!.kWhPerBatch).toBeCloseTo(14.8 / 0.85 / 3.6, 6);
    expect(costSchema.parse(cost)).toEqual(cost);
  });

  test('has the interval of the mean of several burns, and none for one', () => {
    const cost = costOf([batch('a', 3.8), batch('b', 4), batch('c', 4.2)], prices)!;
    expect(cost.wood!.perBatch.interval95![0]).toBeLessThan(cost.wood!.perBatch.value);
    expect(costOf([batch('a', 4)], prices)!.wood!.perBatch.interval95).toBeUndefined();
  });

  test('is undefined for burns without a batch', () => {
    expect(costOf([constructedBurn({ id: 'a', results: {} })], prices)).toBeUndefined();
  });
});

describe('aligning burns in an overlay', () => {
  const analysis = {
    moments: [
      { kind: 'lit' as const, elapsedS: 100, source: 'person' as const },
      { kind: 'target' as const, elapsedS: 4000, source: 'detected' as const },
    ],
  };
  const curve = { timeS: [0, 200, 400, 600], tempC: [70, 15, null, 30] };

  test('is done at lighting, at the target, or where the water passed a temperature after lighting', () => {
    const rising = { timeS: [0, 200, 400, 600], tempC: [15, 15, 20, 30] };
    expect(alignmentS(analysis, rising, { at: 'lit' })).toBe(100);
    expect(alignmentS(analysis, rising, { at: 'target' })).toBe(4000);
    expect(alignmentS(analysis, rising, { at: 'temperature', tempC: 25 })).toBe(500);
  });

  test('never interpolates across a gap', () => {
    expect(alignmentS(analysis, curve, { at: 'temperature', tempC: 20 })).toBeUndefined();
  });
});

describe('design arithmetic', () => {
  const revision = {
    dimensionsM: { 'riser inner diameter': 0.15, 'feed width': 0.12, 'feed height': 0.15, 'pot gap': 0.02 },
    dimensionsM2: { grate: 0.02 },
  };

  test('gives areas and the ratio of each to every other', () => {
    const figures = Object.fromEntries(designFigures(revision, 0.36).map(({ name, value }) => [name, value]));
    expect(figures.riser).toBeCloseTo(0.0176715, 6);
    expect(figures.feed).toBeCloseTo(0.018, 12);
    expect(figures['pot gap']).toBeCloseTo(Math.PI * 0.38 * 0.02, 12);
    expect(figures['grate / riser']).toBeCloseTo(0.02 / 0.0176715, 4);
  });

  test('pairs a figure with a result, burn by burn', () => {
    const burn = constructedBurn({
      id: 'a',
      results: { thermalEfficiency: { value: 0.25, unit: '1' } },
      burn: { revision: { id: 'r', label: '1', ...revision } },
    });
    const [point] = figureAgainstResult([burn], 'riser', 'thermalEfficiency');
    expect(point).toMatchObject({ burnId: 'a', value: 0.25 });
  });
});

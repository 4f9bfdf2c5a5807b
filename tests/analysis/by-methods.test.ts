import { expect, test } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { byMethods } from '../../shared/analysis/by-methods.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import { sampleRecord } from '../exports/sample-burn.ts';

const analyses = methodSets.map((method) => analyse(sampleRecord(), { method, draws: 0 }));

test('every method set has its own column, and results with different units have different rows', () => {
  const rows = byMethods(analyses);
  for (const { id, unit, cells } of rows) {
    expect(cells.length).toBe(methodSets.length);
    cells.forEach((cell, index) => {
      if (!cell) return;
      expect([cell.id, cell.unit, cell.method]).toEqual([id, unit, methodSets[index]]);
    });
  }
  const efficiency = rows.find(({ id }) => id === 'thermalEfficiency');
  expect(efficiency?.cells.every((cell) => cell !== undefined)).toBe(true);
  // MJ of fuel for a MJ into the water is a different quantity from kg of wood per kg of water.
  const consumption = rows.filter(({ id }) => id === 'specificFuelConsumption').map(({ unit }) => unit);
  expect(consumption.length).toBeGreaterThan(1);
  expect(new Set(consumption).size).toBe(consumption.length);
});

test('the spread runs from the lowest to the highest, as a share of their middle', () => {
  const [first, second] = analyses;
  if (!first || !second) throw new Error('two method sets were wanted');
  const translate = (value: number) => (analysis: typeof first) => ({
    ...analysis,
    results: analysis.results.map((result) => (result.id === 'firepower' ? { ...result, unit: 'W', value } : result)),
  });
  const row = byMethods([translate(4000)(first), translate(6000)(second)] as typeof analyses).find(
    ({ id }) => id === 'firepower',
  );
  // (6000 − 4000) / 5000, worked by hand.
  expect(row?.spread).toEqual({ low: 4000, high: 6000, share: 0.4 });
  expect(byMethods([first]).every(({ spread }) => spread === undefined)).toBe(true);
});

import { expect, test } from 'vitest';
import { analyse, resultOf } from '../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { finishedBurn } from '../support/worked-burn.ts';

const heron = finishedBurn();

test('the parts of the heat add up to the energy of the fuel, and the useful ones to the efficiency', () => {
  const analysis = analyse(heron, { draws: 2000 });
  const [fuel, ...parts] = analysis.heat!;
  expect(fuel?.of).toBe('fuel');
  expect(parts.map(({ of }) => of)).toEqual(['load', 'steam', 'pot', 'char', 'rest']);
  expect(parts.reduce((sum, { MJ }) => sum + MJ, 0)).toBeCloseTo(fuel!.MJ, 9);
  const of = (name: string) => parts.find((part) => part.of === name)!.MJ;
  const efficiency = resultOf(analysis, 'thermalEfficiency');
  if (!('value' in efficiency)) throw new Error('the burn has an efficiency');
  expect((of('load') + of('steam')) / (fuel!.MJ - of('char'))).toBeCloseTo(efficiency.value, 12);
  for (const { MJ, interval95 } of analysis.heat!) {
    expect(interval95![0]).toBeLessThanOrEqual(MJ);
    expect(interval95![1]).toBeGreaterThanOrEqual(MJ);
  }
});

test('the heat of a pot of unknown mass is part of the rest', () => {
  const { massKg: _mass, ...vessel } = heron.vessel!;
  const withPot = analyse(heron, { draws: 0 }).heat!;
  const without = analyse({ ...heron, vessel } as BurnRecord, { draws: 0 }).heat!;
  const of = (heat: typeof withPot, name: string) => heat.find((part) => part.of === name)?.MJ ?? 0;
  expect(without.map(({ of: name }) => name)).not.toContain('pot');
  expect(of(without, 'rest')).toBeCloseTo(of(withPot, 'rest') + of(withPot, 'pot'), 9);
});

test('without one of the weighings there are no parts of the heat', () => {
  const weighings = heron.weighings.filter(({ of }) => of !== 'char');
  expect(analyse({ ...heron, weighings }, { draws: 0 })).not.toHaveProperty('heat');
});

import { expect, test } from 'vitest';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns, heronLiveBurn } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';

const finished = heronBurns();

test('the Heron has eight finished burns: four per revision, one below the boil, one set aside, two operators', () => {
  const descriptions = finished.map((burn) => burn.description);
  expect(descriptions).toHaveLength(8);
  expect(descriptions.filter((burn) => burn.revision.label === '1')).toHaveLength(4);
  expect(descriptions.filter((burn) => burn.status === 'setAside')).toHaveLength(1);
  expect(finished.filter((burn) => burn.scenario.plan.target.kind === 'boil')).toHaveLength(7);
  expect(new Set(descriptions.map((burn) => burn.operator))).toEqual(new Set(['M', 'R']));
  expect(new Set(descriptions.map((burn) => burn.id)).size).toBe(8);
});

test('every Heron burn makes a valid record, labelled simulated, with the truth close to the measured values', () => {
  for (const { scenario, seed, errors, description } of [...finished, heronLiveBurn(Date.UTC(2026, 10, 20))]) {
    const sparse = { ...scenario, timing: { ...scenario.timing, readingEveryS: 10 } };
    const burn = simulateBurn(sparse, seed, errors);
    const record = burnRecordSchema.parse(toBurnRecord(burn, description));
    expect(record.origin).toBe('simulated');
    expect(burn.truth.holdMet).toBe(true);
    const fedKg = record.marks.reduce((sum, mark) => sum + (mark.kind === 'fed' ? (mark.massKg ?? 0) : 0), 0);
    const pile = (when: 'start' | 'end') =>
      record.weighings
        .filter((weighing) => weighing.of === 'fuelPile' && weighing.when === when)
        .reduce((sum, weighing) => sum + weighing.massKg!, 0);
    expect(Math.abs(pile('start') - pile('end') - fedKg)).toBeLessThan(0.1);
    expect(record.readings[0]!.columns).toHaveLength(8);
  }
});

test('the burn that is set aside has a reason: its lower water probe leaves the water', () => {
  const spoilt = finished.find((burn) => burn.description.status === 'setAside')!;
  const { scans } = simulateBurn(spoilt.scenario, spoilt.seed, spoilt.errors);
  const after = scans.elapsedS.indexOf(2400);
  const [low, high] = [scans.counts[0]![after]! * 0.0625, scans.counts[1]![after]! * 0.0625];
  expect(high - low).toBeGreaterThan(10);
});

test('identities stay the same from run to run, and are version 7', () => {
  expect(heronBurns().map((burn) => burn.description.id)).toEqual(finished.map((burn) => burn.description.id));
  for (const { description } of finished)
    expect(description.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab]/);
});

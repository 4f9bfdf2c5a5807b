import { expect, test } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import type { ValueResult } from '../../shared/contract/results.ts';
import { showPlain } from '../../shared/language/result-figures.ts';
import { entryOf } from '../../web/views/burns/entry-of.ts';
import { nextSteps, outcomesOf } from '../../web/views/burns/next-steps.ts';
import { workedLines } from '../../web/views/burns/worked-lines.ts';
import { finishedBurn } from '../support/worked-burn.ts';

const record = finishedBurn();
const analysis = analyse(record, { draws: 0 });
const values = ({ results }: typeof analysis) => results.filter((result): result is ValueResult => 'value' in result);
const printed = (value: number) => Number(showPlain('en', value).replaceAll(/[^\d.−]/g, ''));

test('every result with several figures has a working line by line', () => {
  const several = values(analysis).filter(({ inputs }) => inputs.length > 1);
  expect(several.length).toBeGreaterThan(10);
  for (const result of several) {
    const lines = workedLines(result);
    expect([result.id, lines.length > 0]).toEqual([result.id, true]);
    expect(lines.at(-1)?.total.value).toBeCloseTo(result.value, 9);
  }
});

test('the printed figures of each line give its printed total', () => {
  for (const result of values(analysis)) {
    for (const { left, sign, right, total } of workedLines(result)) {
      const [a, b] = [printed(left.value), printed(right.value)];
      const come = sign === '+' ? a + b : sign === '−' ? a - b : a / b;
      const exact =
        sign === '+' ? left.value + right.value : sign === '−' ? left.value - right.value : left.value / right.value;
      const factor = total.value / exact;
      expect(Math.abs((come * factor) / total.value - 1)).toBeLessThan(0.002);
    }
  }
});

test('the working of a method that defines a result differently does not have the lines of the first', () => {
  for (const method of methodSets)
    for (const result of values(analyse(record, { method, draws: 0 }))) {
      const last = workedLines(result).at(-1);
      if (last) expect(last.total.value).toBeCloseTo(result.value, 9);
    }
});

test('each figure of a line links to where it was entered', () => {
  const names = values(analysis).flatMap((result) =>
    workedLines(result).flatMap(({ left, right }) => [left.name, right.name]),
  );
  for (const name of names)
    if (name !== undefined) expect([name, entryOf(name, 'burn')]).not.toEqual([name, undefined]);
  expect(entryOf('mark.lit', 'burn', 'mark')).toEqual({ mark: 'mark' });
  expect(entryOf('fuelLot.moisture', 'burn')).toEqual({ screen: { at: 'shelf', kind: 'fuelLots' } });
});

test('a missing weighing is listed once as a task, with the results that depend on it', () => {
  const weighings = record.weighings.filter(({ when }) => when === 'start');
  const steps = nextSteps(analyse({ ...record, status: 'ended', weighings }, { draws: 0 }));
  expect(steps.map(({ kind }) => kind)).toEqual(['weigh']);
  expect(steps[0]?.results).toContain('dryWoodPerBatch');
  expect(steps[0]?.results).toContain('thermalEfficiency');
  // Each reason once, however many results it affects.
  const codes = steps[0]?.reasons.map(({ code }) => code) ?? [];
  expect(new Set(codes).size).toBe(codes.length);
});

test('a complete burn has no task; a target that was not reached has its sentence', () => {
  expect(nextSteps(analysis)).toEqual([]);
  expect(outcomesOf(analysis)).toEqual([]);
  const missed = { code: 'targetNotReached', params: { highestTempC: 80, targetTempC: 99 } };
  const results = [
    { id: 'timeToTarget' as const, missing: missed },
    { id: 'dryWoodPerBatch' as const, missing: missed },
    { id: 'holdDuration' as const, missing: { code: 'holdNotReached', params: {} } },
  ];
  expect(outcomesOf({ results })).toEqual([missed]);
  expect(nextSteps({ results })).toEqual([]);
});

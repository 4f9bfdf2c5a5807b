import { expect, test } from 'vitest';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };

test('the published sample is a small valid burn record, labelled simulated', () => {
  const record = burnRecordSchema.parse(sample);
  expect(record.origin).toBe('simulated');
  expect(JSON.stringify(record).length).toBeLessThan(100_000);
  const { elapsedUs, columns } = record.readings[0]!;
  expect(elapsedUs[1]! - elapsedUs[0]!).toBe(10e6);
  for (const column of columns) expect(column.counts).toHaveLength(elapsedUs.length);
  expect(new Set(record.marks.map((mark) => mark.kind))).toContain('holdEnd');
  expect(new Set(record.weighings.map((weighing) => weighing.of))).toEqual(
    new Set(['fuelPile', 'water', 'brands', 'char']),
  );
});

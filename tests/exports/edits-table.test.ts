import { expect, test } from 'vitest';
import { editsTable } from '../../server/exports/edits-table.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { testId } from '../support/temp-store.ts';
import { sampleRecord } from './sample-burn.ts';
import { allRows } from './tables.ts';

type Edits = NonNullable<BurnRecord['edits']>;

const rowsOf = (edits: Edits) => allRows(editsTable(sampleRecord({ edits })));

const edit = (before: Edits[number]['before'], after: Edits[number]['after']): Edits[number] => ({
  atUtcMs: 1000,
  by: 'first',
  what: 'burn',
  id: testId(1),
  before,
  after,
});

test('a change has one row per changed field, with its old and its new value', () => {
  const before = { title: 'one', airTempC: 11, target: { kind: 'boil' }, fuelLotIds: ['a', 'b'] };
  const after = { title: 'two', target: { kind: 'temperature', tempC: 60 }, fuelLotIds: ['a'], 'a/b~c': true };
  const head = [1, 1000, 'first', 'burn', testId(1)];
  expect(rowsOf([edit(before, after)])).toEqual([
    [...head, '/airTempC', '11', null],
    [...head, '/a~1b~0c', null, 'true'],
    [...head, '/fuelLotIds/1', 'b', null],
    [...head, '/target/kind', 'boil', 'temperature'],
    [...head, '/target/tempC', null, '60'],
    [...head, '/title', 'one', 'two'],
  ]);
});

test('a withdrawn entry has its old values and no new ones', () => {
  expect(rowsOf([edit({ kind: 'fed', massKg: 1.2 }, null)]).map((row) => row.slice(5))).toEqual([
    ['/kind', 'fed', null],
    ['/massKg', '1.2', null],
  ]);
});

test('the order in which fields were stored changes nothing', () => {
  const one = rowsOf([edit({ a: 1, b: [], c: 'x' }, { a: 2, b: [], c: 'y' })]);
  const other = rowsOf([edit({ c: 'x', b: [], a: 1 }, { b: [], c: 'y', a: 2 })]);
  expect(other).toEqual(one);
  expect(one.length).toBe(2);
});

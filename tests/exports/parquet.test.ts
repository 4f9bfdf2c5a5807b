import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { parquet } from '../../server/exports/parquet.ts';
import { tableOf } from '../../server/exports/table.ts';
import { allRows, smallTable } from './tables.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'parquet-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

test('DuckDB reads back every value, gap and hostile text of a Parquet file', async () => {
  const file = join(folder, 'readings.parquet');
  writeFileSync(file, Buffer.concat([...parquet(smallTable())]));
  const connection = await (await DuckDBInstance.create(':memory:')).connect();
  const read = await connection.runAndReadAll(`SELECT * FROM read_parquet('${file}')`);
  expect(read.columnNames()).toEqual(['elapsed [s]', 'water [Cel]', 'note']);
  expect(read.getRows()).toEqual(allRows(smallTable()));
});

test('integers, timestamps and units have their types, under the names of the columns', async () => {
  const file = join(folder, 'typed.parquet');
  const largest = 2 ** 53 - 1;
  const startMs = Date.UTC(2026, 9, 19, 8, 0, 0, 250);
  const table = tableOf({
    name: 'typed',
    description: 'invented',
    columns: [
      { name: 'sequence', type: 'integer', description: 'number of the scan' },
      { name: 'utc', type: 'timestamp', description: 'moment' },
      { name: 'water', unit: 'Cel', type: 'number', description: 'as sent' },
    ],
    rows: [
      [4_294_967_295, startMs, 20.5],
      [largest, null, null],
      [null, startMs + 1, -0.5],
    ],
  });
  writeFileSync(file, Buffer.concat([...parquet(table)]));
  const connection = await (await DuckDBInstance.create(':memory:')).connect();
  const rows = async (query: string) => (await connection.runAndReadAll(query)).getRows();
  expect((await rows(`DESCRIBE SELECT * FROM '${file}'`)).map(([name, type]) => [name, type])).toEqual([
    ['sequence', 'BIGINT'],
    ['utc', 'TIMESTAMP WITH TIME ZONE'],
    ['water [Cel]', 'DOUBLE'],
  ]);
  expect(await rows(`SELECT sequence, epoch_ms(utc), "water [Cel]" FROM '${file}'`)).toEqual([
    [4_294_967_295n, BigInt(startMs), 20.5],
    [BigInt(largest), null, null],
    [null, BigInt(startMs + 1), -0.5],
  ]);
  const described = await rows(
    `SELECT decode(value) FROM parquet_kv_metadata('${file}') WHERE decode(key) = 'columns'`,
  );
  expect(JSON.parse(String(described[0]![0])).map(({ name, unit }: Record<string, string>) => [name, unit])).toEqual([
    ['sequence', undefined],
    ['utc', undefined],
    ['water [Cel]', 'Cel'],
  ]);
});

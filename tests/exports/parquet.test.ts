import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { parquet } from '../../server/exports/parquet.ts';
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

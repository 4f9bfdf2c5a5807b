/** Writes published burns for a test: fields that a question uses are given, the others are filled in. Invented. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { writeParquetFile } from '../../server/dataset/parquet-file.ts';
import { fileOf } from '../../server/dataset/places.ts';
import type { Column } from '../../shared/dataset/column.ts';
import { datasetTables } from '../../shared/dataset/dataset.ts';
import type { DatasetRow } from '../../shared/dataset/row.ts';
import { rowsOfFile } from '../dataset/rows-of-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

type DatasetValue = DatasetRow[string];

export interface GivenBurn {
  bench: string;
  burn: string;
  stove: string;
  revision?: string | undefined;
  parent?: string | undefined;
  lot?: string | undefined;
  /** Results by name: value and half the width of the 95 % interval. */
  results: Readonly<Record<string, readonly [value: number | null, half?: number]>>;
  startedDay?: number | undefined;
  status?: string;
  simulated?: boolean;
  start?: string | undefined;
}

const DAY_US = 86_400e6;
const FIRST_DAY_US = Date.UTC(2026, 0, 5) * 1000;
const MONTH = '2026-01';

/** Makes a folder with these burns published, one file per bench. */
export function publishedBurns(burns: readonly GivenBurn[], folder = temporaryFolder()): string {
  for (const [bench, own] of Map.groupBy(burns, (burn) => burn.bench)) {
    write('burns', bench, own.map(burnRow));
    write('results', bench, own.flatMap(resultRows));
  }
  return folder;

  function write(name: 'burns' | 'results', bench: string, given: readonly DatasetRow[]): void {
    const table = datasetTables[name];
    const rows = given.map((row) => ({ ...Object.fromEntries(table.columns.map(filled)), ...row }));
    const state = { methodVersion: '0', burns: {} };
    writeParquetFile({ path: fileOf(folder, bench, name, MONTH), table, state, rows, createdBy: 'test' });
  }
}

function filled({ name, type, nullWhen }: Column): [string, DatasetValue] {
  if (nullWhen !== undefined) return [name, null];
  return [name, type === 'text' ? '' : type === 'textList' ? [] : type === 'boolean' ? false : 0];
}

function burnRow({
  bench,
  burn,
  stove,
  revision,
  parent,
  lot,
  startedDay,
  status,
  simulated,
  start,
}: GivenBurn): DatasetRow {
  return {
    burn,
    bench_name: `Bench ${bench}`,
    simulated: simulated ?? false,
    status: status ?? 'complete',
    start_kind: start ?? null,
    started_at: startedDay === undefined ? null : FIRST_DAY_US + startedDay * DAY_US,
    stove_id: `stove ${stove}`,
    stove,
    revision_id: revision === undefined ? null : `${stove} ${revision}`,
    revision: revision ?? null,
    revision_parent_id: parent === undefined ? null : `${stove} ${parent}`,
    wood_lot_id: lot === undefined ? null : `lot ${lot}`,
    wood_lot: lot ?? null,
  };
}

function resultRows({ burn, simulated, results }: GivenBurn): DatasetRow[] {
  return Object.entries(results).map(([result, [value, half]]) => ({
    burn,
    simulated: simulated ?? false,
    method: 'bench-1',
    method_version: '3',
    result,
    value,
    unit: value === null ? null : 'kg',
    interval_low: value === null || half === undefined ? null : value - half,
    interval_high: value === null || half === undefined ? null : value + half,
    missing: value === null ? 'nothing' : null,
  }));
}

export type PublishedRow = Record<string, unknown> & { bench: string };

/** Returns all rows of a table with the bench from the names of the folders, by another reader than DuckDB. */
export async function rowsOf(folder: string, table: string): Promise<PublishedRow[]> {
  const files = readdirSync(join(folder, table), { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.parquet'),
  );
  const read = await Promise.all(
    files.map(async (name) => {
      const bench = /bench=([^/]+)/.exec(name)![1]!;
      return (await rowsOfFile(join(folder, table, name))).map((row) => ({ ...row, bench }));
    }),
  );
  return read.flat();
}

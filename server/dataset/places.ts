/** The paths of the files of a dataset: the directory convention from which engines read columns (`bench=…/year=…`). */
import { type Dirent, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type DatasetTableName, datasetTables } from '../../shared/dataset/dataset.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';

const UUID_7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7/;
const BENCH_FOLDER = 'bench=';
export const PARQUET = '.parquet';

/**
 * Year and month, "2026-05", UTC: of the identifier, which never changes; of the start where the identifier contains no
 * time.
 */
export function monthOf({ id, startedUtcMs = 0 }: Pick<RecordWithoutReadings, 'id' | 'startedUtcMs'>): string {
  const madeAtMs = UUID_7.test(id) ? Number.parseInt(id.replace('-', '').slice(0, 12), 16) : startedUtcMs;
  return new Date(madeAtMs).toISOString().slice(0, 7);
}

/** @param name month of a small table, or burn of readings */
export function fileOf(folder: string, bench: string, table: DatasetTableName, month: string, name = month): string {
  return join(folder, table, `${BENCH_FOLDER}${bench}`, `year=${month.slice(0, 4)}`, `${name}${PARQUET}`);
}

/** Every file in the folders of one bench, burns first. */
export function filesOfBench(folder: string, bench: string): string[] {
  return Object.keys(datasetTables).flatMap((table) => filesBelow(join(folder, table, `${BENCH_FOLDER}${bench}`)));
}

/** The benches that have published in this folder. */
export function benchesIn(folder: string): string[] {
  return entriesOf(join(folder, 'burns'))
    .filter((entry) => entry.isDirectory() && entry.name.startsWith(BENCH_FOLDER))
    .map(({ name }) => name.slice(BENCH_FOLDER.length))
    .sort();
}

/** The files of one table of a bench. */
export function filesOfTable(folder: string, bench: string, table: DatasetTableName): string[] {
  return filesBelow(join(folder, table, `${BENCH_FOLDER}${bench}`)).filter((path) => path.endsWith(PARQUET));
}

function filesBelow(folder: string): string[] {
  return entriesOf(folder)
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? filesBelow(path) : [path];
    })
    .sort();
}

/** Returns nothing for a folder that does not exist, or that is removed while it is read. */
function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw error;
  }
}

/**
 * The published dataset: finished burns of any number of benches as partitioned Parquet files. Files are written, read
 * back and described from this one declaration.
 */
import { burnsTable } from './burns.ts';
import type { DatasetTable } from './column.ts';
import { marksTable } from './marks.ts';
import { readingsTable } from './readings.ts';
import { resultsTable } from './results.ts';
import { weighingsTable } from './weighings.ts';

export const DATASET_SCHEMA = 'stovebench-dataset';

/** Increases when a column changes its meaning or is removed, but not when a column is added at the end of a table. */
export const DATASET_VERSION = 1;

/** The tables by the name of their folder. */
export const datasetTables = {
  burns: burnsTable,
  results: resultsTable,
  readings: readingsTable,
  marks: marksTable,
  weighings: weighingsTable,
} as const satisfies Record<string, DatasetTable>;

export type DatasetTableName = keyof typeof datasetTables;

/** Columns that are encoded in the names of folders, where engines read them. */
export const partitionColumns = [
  { name: 'bench', type: 'text', meaning: 'UUID of the installation that published the row' },
  { name: 'year', type: 'int32', meaning: 'year of the burn, UTC, from the time in its identifier' },
] as const;

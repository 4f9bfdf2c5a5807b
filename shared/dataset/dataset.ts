/**
 * The published dataset: finished burns of any number of benches as partitioned Parquet files. This is the one declaration from which
 * files are written, read back and described.
 */
import { burnsTable } from './burns.ts';
import type { DatasetTable } from './column.ts';
import { marksTable } from './marks.ts';
import { readingsTable } from './readings.ts';
import { resultsTable } from './results.ts';
import { weighingsTable } from './weighings.ts';

export const DATASET_SCHEMA = 'stovebench-dataset';

/** Goes up when a column changes its meaning or goes; a column that is added at the end of a table leaves it. */
export const DATASET_VERSION = 1;

/** By the name of their folder. */
export const datasetTables = {
  burns: burnsTable,
  results: resultsTable,
  readings: readingsTable,
  marks: marksTable,
  weighings: weighingsTable,
} as const satisfies Record<string, DatasetTable>;

export type DatasetTableName = keyof typeof datasetTables;

/** Columns that stand in the names of the folders, as engines read them from there. */
export const partitionColumns = [
  { name: 'bench', type: 'text', meaning: 'UUID of the installation that published the row' },
  { name: 'year', type: 'int32', meaning: 'year of the burn, UTC, from the time in its identifier' },
] as const;

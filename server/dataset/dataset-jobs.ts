/** The jobs of publishing that access the folder of the dataset, or the readings. */
import { existsSync, mkdirSync } from 'node:fs';
import { type DatasetTableName, datasetTables } from '../../shared/dataset/dataset.ts';
import type { DatasetRow } from '../../shared/dataset/row.ts';
import { readBoardsInTurns } from '../records/board-readings.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';
import type { FileState } from './file-state.ts';
import { removeFile, writeParquetFile } from './parquet-file.ts';
import { leftOver, type Plan, planPublication, type WantedBurn } from './plan.ts';
import { readingRows } from './reading-rows.ts';

interface Written {
  path: string;
  state: FileState;
  /** Name and version of the program. */
  createdBy: string;
}

export interface PlanJob {
  kind: 'plan';
  folder: string;
  bench: string;
  burns: readonly WantedBurn[];
}

export type FileJob =
  | (Written & { kind: 'readings'; record: RecordWithoutReadings })
  | (Written & { kind: 'rows'; table: DatasetTableName; rows: readonly DatasetRow[] })
  | { kind: 'remove'; path: string }
  /** Of what a run that was cancelled has half written. */
  | { kind: 'clear'; folder: string; bench: string };

/** @throws AppError dataset/newer; errors of the file system */
export function makePlan({ folder, bench, burns }: PlanJob): Plan {
  // Its parent must exist: the mount point of a disk that is not plugged in must not be filled instead.
  if (!existsSync(folder)) mkdirSync(folder);
  return planPublication(folder, bench, burns);
}

/** @throws errors of the file system */
export async function doFileJob(store: Store, job: FileJob): Promise<void> {
  switch (job.kind) {
    case 'remove':
      removeFile(job.path);
      break;
    case 'clear':
      for (const { path } of leftOver(job.folder, job.bench)) removeFile(path);
      break;
    case 'rows':
      writeParquetFile({ ...job, table: datasetTables[job.table] });
      break;
    case 'readings':
      writeParquetFile({
        ...job,
        table: datasetTables.readings,
        rows: readingRows(job.record, await readBoardsInTurns(store, job.record.id)),
      });
  }
}

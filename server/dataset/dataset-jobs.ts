/** What the thread that writes the dataset can be asked, and the work itself. */
import { type DatasetTableName, datasetTables } from '../../shared/dataset/dataset.ts';
import type { DatasetRow } from '../../shared/dataset/row.ts';
import type { BoardReadings } from '../records/board-readings.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { FileState } from './file-state.ts';
import { removeFile, writeParquetFile } from './parquet-file.ts';
import { readingRows } from './reading-rows.ts';

interface Written {
  path: string;
  state: FileState;
  /** Name and version of the program. */
  createdBy: string;
}

export type DatasetJob =
  | (Written & { kind: 'readings'; record: RecordWithoutReadings; boards: readonly BoardReadings[] })
  | (Written & { kind: 'rows'; table: DatasetTableName; rows: readonly DatasetRow[] })
  | { kind: 'remove'; path: string };

/** @throws what the file system says */
export function doDatasetJob(job: DatasetJob): void {
  switch (job.kind) {
    case 'remove':
      removeFile(job.path);
      break;
    case 'rows':
      writeParquetFile({ ...job, table: datasetTables[job.table] });
      break;
    case 'readings':
      writeParquetFile({ ...job, table: datasetTables.readings, rows: readingRows(job.record, job.boards) });
  }
}

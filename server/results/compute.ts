/** The computation of an analyst, independent of the process in which it runs. */
import { getHeapStatistics } from 'node:v8';
import { analyse } from '../../shared/analysis/analyse.ts';
import { trustedWater } from '../../shared/comparison/prediction/predict-from-records.ts';
import { AppError } from '../base/app-error.ts';
import { readStoredRecord } from '../records/burn-record.ts';
import type { Store } from '../store/store.ts';
import type { AnalysisInput } from './analyst.ts';
import { storedSeries } from './stored-series.ts';

/**
 * @param store that of the input's folder
 * @throws AppError burn/too-many-readings
 */
export async function compute(store: Store, { record: stated, computation }: AnalysisInput): Promise<unknown> {
  if (computation.kind === 'series') return storedSeries(store, stated, computation.request);
  refuseTooMany(store, stated);
  const record = await readStoredRecord(store, stated);
  switch (computation.kind) {
    case 'analyse':
      return analyse(record, { method: computation.method });
    case 'water': {
      // Only numbers can be passed to another process.
      const { timeS, tempC } = trustedWater(record, computation.analysis);
      return { timeS, tempC };
    }
  }
}

/** Of one reading on the way to a result: 27 in burns of four boards, five to ten hours long. */
const BYTES_A_READING = 28;
/** Draws, and what an earlier burn left behind. */
const OTHER_BYTES = 80e6;

/**
 * All readings of a burn are in memory when results are computed. Of a burn that would take more than is lent the process would end in
 * the middle, twice.
 * @throws AppError burn/too-many-readings
 */
function refuseTooMany(store: Store, { id, channels }: AnalysisInput['record']): void {
  const readings = store.scans.boards(id).reduce((sum, boardId) => {
    const ofBoard = channels.filter((channel) => channel.boardId === boardId).length;
    return sum + ofBoard * store.scans.count(id, boardId);
  }, 0);
  // As much as the heap may have is free for them: the process may have twice that, and takes 100 MB before it begins.
  const lentBytes = getHeapStatistics().heap_size_limit;
  const neededBytes = OTHER_BYTES + readings * BYTES_A_READING;
  if (neededBytes <= lentBytes) return;
  const memoryMb = Math.ceil((2 * neededBytes) / 1e8) * 100;
  throw new AppError('burn/too-many-readings', { millions: Math.round(readings / 1e6), memoryMb });
}

/** The computation of an analyst, independent of the process in which it runs. */
import { analyse } from '../../shared/analysis/analyse.ts';
import { trustedWater } from '../../shared/comparison/prediction/predict-from-records.ts';
import { readBoardsInTurns } from '../records/board-readings.ts';
import { assembleRecord } from '../records/burn-record.ts';
import type { Store } from '../store/store.ts';
import type { AnalysisInput } from './analyst.ts';
import { storedSeries } from './stored-series.ts';

/** @param store that of the input's folder */
export async function compute(store: Store, { record: stated, computation }: AnalysisInput): Promise<unknown> {
  if (computation.kind === 'series') return storedSeries(store, stated, computation.request);
  const record = assembleRecord(stated, await readBoardsInTurns(store, stated.id));
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

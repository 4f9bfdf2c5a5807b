/** What the analysis worker can be asked, and the work itself: pure, so that it runs anywhere. */
import { analyse } from '../../shared/analysis/analyse.ts';
import { trustedWater } from '../../shared/comparison/prediction/predict-from-records.ts';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { type SeriesRequest, seriesOf } from '../curves/series.ts';
import type { BoardReadings } from '../records/board-readings.ts';
import { assembleRecord } from '../records/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';

export type Job =
  | { kind: 'analyse'; method: MethodSet }
  | { kind: 'series'; request: SeriesRequest }
  | { kind: 'water'; analysis: Analysis };

export interface JobInput {
  record: RecordWithoutReadings;
  boards: readonly BoardReadings[];
  job: Job;
}

export function doJob({ record: withoutReadings, boards, job }: JobInput): unknown {
  const record = assembleRecord(withoutReadings, boards);
  switch (job.kind) {
    case 'analyse':
      return analyse(record, { method: job.method });
    case 'series':
      return seriesOf(record, job.request);
    case 'water': {
      // Only the numbers can leave the thread.
      const { timeS, tempC } = trustedWater(record, job.analysis);
      return { timeS, tempC };
    }
  }
}

import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { SeriesRequest } from '../curves/series.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Job, Queue } from '../worker/job.ts';
import type { Worker } from '../worker/worker.ts';

/** What can be computed from one burn. */
export type Computation =
  | { kind: 'analyse'; method: MethodSet }
  | { kind: 'series'; request: SeriesRequest }
  | { kind: 'water'; analysis: Analysis };

export interface AnalysisInput {
  /** Of the store that holds the readings. */
  folder: string;
  record: RecordWithoutReadings;
  computation: Computation;
}

/** Computes the results and curves of a burn. */
export interface Analyst {
  /** @throws AppError as `Worker.do` */
  do(input: AnalysisInput, signal?: AbortSignal): Promise<unknown>;
}

export const analysisJob: Job<AnalysisInput, unknown> = { name: 'analysis', queue: 'live' };

/**
 * Computes in the worker process: it takes hundreds of milliseconds, and a serial port's buffer holds less than two
 * seconds.
 */
export function createAnalyst(worker: Worker, queue: Queue = analysisJob.queue): Analyst {
  return { do: (input, signal) => worker.do(analysisJob, input, { signal, queue }) };
}

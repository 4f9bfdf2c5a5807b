/** A thread that reads one file and ends: parsing the record of a day takes seconds, and a serial port does not wait. */
import { parentPort, workerData } from 'node:worker_threads';
import { AppError } from '../base/app-error.ts';
import type { ReadingAnswer } from './read-in-thread.ts';
import { doReading, type ReadingJob } from './reading-jobs.ts';

try {
  parentPort!.postMessage({ opened: doReading(workerData as ReadingJob) } satisfies ReadingAnswer);
} catch (error) {
  if (!(error instanceof AppError)) throw error;
  const { code, params, issues } = error;
  parentPort!.postMessage({ refusal: { code, params, issues } } satisfies ReadingAnswer);
}

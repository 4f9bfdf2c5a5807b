/** A thread that reads files: parsing the record of a day takes seconds, and a serial port does not wait. */
import { parentPort } from 'node:worker_threads';
import { AppError } from '../base/app-error.ts';
import type { ReadingAnswer } from './read-in-thread.ts';
import { doReading, type ReadingJob } from './reading-jobs.ts';

parentPort!.on('message', (job: ReadingJob) => {
  try {
    parentPort!.postMessage({ opened: doReading(job) } satisfies ReadingAnswer);
  } catch (error) {
    // Anything else ends this thread, which tells whoever waits.
    if (!(error instanceof AppError)) throw error;
    const { code, params, issues } = error;
    parentPort!.postMessage({ refusal: { code, params, issues } } satisfies ReadingAnswer);
  }
});

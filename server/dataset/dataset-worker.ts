/**
 * The thread of the dataset: to encode a burn takes a second, and a network drive may take any time to look at or to write, while a serial
 * port does not wait.
 */
import { parentPort } from 'node:worker_threads';
import { isAppError } from '../base/app-error.ts';
import { doFileJob, type FileJob, makePlan, type PlanJob } from './dataset-jobs.ts';
import type { DatasetAnswer } from './work-in-thread.ts';

parentPort!.on('message', (job: PlanJob | FileJob) => {
  parentPort!.postMessage(answerTo(job));
});

function answerTo(job: PlanJob | FileJob): DatasetAnswer {
  try {
    if (job.kind === 'plan') return { plan: makePlan(job) };
    doFileJob(job);
    return {};
  } catch (error) {
    if (isAppError(error)) return { refusal: { code: error.code, params: error.params } };
    // Anything but a word of the file system ends this thread, which tells whoever waits.
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    return { failure: { code, message } };
  }
}

/** The thread that writes the dataset: to encode a burn takes a second and a network drive any time, and a serial port does not wait. */
import { parentPort } from 'node:worker_threads';
import { type DatasetJob, doDatasetJob } from './dataset-jobs.ts';
import type { DatasetAnswer } from './write-in-thread.ts';

parentPort!.on('message', (job: DatasetJob) => {
  try {
    doDatasetJob(job);
    parentPort!.postMessage({} satisfies DatasetAnswer);
  } catch (error) {
    // Anything but a word of the file system ends this thread, which tells whoever waits.
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    parentPort!.postMessage({ failure: { code, message } } satisfies DatasetAnswer);
  }
});

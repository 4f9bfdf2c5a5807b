import type { Worker } from 'node:worker_threads';
import { AppError } from '../base/app-error.ts';
import { createIdleThreads } from '../base/idle-threads.ts';
import { buffersOf } from '../records/board-readings.ts';
import type { DatasetJob } from './dataset-jobs.ts';

export interface DatasetAnswer {
  /** What the file system said, where it refused. */
  failure?: { code: string; message: string };
}

const threads = createIdleThreads(new URL('./dataset-worker', import.meta.url));

/** Writes the files of a dataset, one at a time. */
export interface DatasetWriter {
  /** @throws the file system's error with its code; AppError request/closing when it has been closed */
  do(job: DatasetJob): Promise<void>;
  /** What is half written is left under its other name, and cleared by the next run. */
  close(): Promise<void>;
}

/** Writes in a thread of its own. */
export function createDatasetWriter(): DatasetWriter {
  let working: Worker | undefined;
  let closed = false;

  return {
    do: (job) =>
      new Promise((resolve, reject) => {
        if (closed) throw new AppError('request/closing');
        const thread = threads.take();
        working = thread;
        thread.ref();
        thread.on('message', ({ failure }: DatasetAnswer) => {
          working = undefined;
          threads.giveBack(thread);
          if (failure) reject(Object.assign(new Error(failure.message), { code: failure.code }));
          else resolve();
        });
        thread.on('error', reject);
        thread.on('exit', () =>
          reject(closed ? new AppError('request/closing') : new Error('The writing of the file was interrupted.')),
        );
        thread.postMessage(job, job.kind === 'readings' ? buffersOf(job.boards) : []);
      }),
    async close() {
      closed = true;
      await working?.terminate();
    },
  };
}

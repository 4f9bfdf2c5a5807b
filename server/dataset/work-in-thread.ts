import type { Worker } from 'node:worker_threads';
import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import type { Params } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { createIdleThreads } from '../base/idle-threads.ts';
import { buffersOf } from '../records/board-readings.ts';
import type { FileJob, PlanJob } from './dataset-jobs.ts';
import type { Plan } from './plan.ts';

export interface DatasetAnswer {
  /** To a job that asked for one. */
  plan?: Plan;
  refusal?: { code: ErrorCode; params: Params };
  /** What the file system said, where it refused. */
  failure?: { code: string; message: string };
}

/** Looks at the folder of a dataset and writes its files, one thing at a time. */
export interface DatasetWork {
  /** @throws AppError dataset/newer; the file system's error with its code; AppError request/closing when it has been closed */
  plan(job: PlanJob): Promise<Plan>;
  /** @throws the same */
  write(job: FileJob): Promise<void>;
  /** What is half written is left under its other name, and cleared by the next run. */
  close(): Promise<void>;
}

const threads = createIdleThreads(new URL('./dataset-worker', import.meta.url));

/** Works in a thread of its own. */
export function createDatasetWork(): DatasetWork {
  let working: Worker | undefined;
  let closed = false;

  const ask = (job: PlanJob | FileJob): Promise<DatasetAnswer> =>
    new Promise((resolve, reject) => {
      if (closed) throw new AppError('request/closing');
      const thread = threads.take();
      working = thread;
      thread.ref();
      thread.on('message', (answer: DatasetAnswer) => {
        working = undefined;
        threads.giveBack(thread);
        const { refusal, failure } = answer;
        if (refusal) reject(new AppError(refusal.code, refusal.params));
        else if (failure) reject(Object.assign(new Error(failure.message), { code: failure.code }));
        else resolve(answer);
      });
      thread.on('error', reject);
      thread.on('exit', () =>
        reject(closed ? new AppError('request/closing') : new Error('The writing of the file was interrupted.')),
      );
      thread.postMessage(job, job.kind === 'readings' ? buffersOf(job.boards) : []);
    });

  return {
    plan: async (job) => (await ask(job)).plan!,
    write: async (job) => void (await ask(job)),
    async close() {
      closed = true;
      await working?.terminate();
    },
  };
}

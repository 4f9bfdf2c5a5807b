import type { Job } from '../worker/job.ts';
import type { Worker } from '../worker/worker.ts';
import type { FileJob, PlanJob } from './dataset-jobs.ts';
import type { Plan } from './plan.ts';

/** Reads the folder of a dataset and writes its files. */
export interface DatasetWork {
  /** @throws AppError dataset/newer; the file system's error with its code; AppError as `Worker.do` */
  plan(job: PlanJob, signal: AbortSignal): Promise<Plan>;
  /** @param folder of the store. @throws the same */
  write(folder: string, job: FileJob, signal: AbortSignal): Promise<void>;
}

// Queue `foreign`, because a network drive may take any time to read or to write.
export const planJob: Job<PlanJob, Plan> = { name: 'dataset plan', queue: 'foreign' };
export const fileJob: Job<{ folder: string; job: FileJob }, void> = { name: 'dataset file', queue: 'foreign' };

export function createDatasetWork(worker: Worker): DatasetWork {
  return {
    plan: (job, signal) => worker.do(planJob, job, { signal }),
    write: (folder, job, signal) => worker.do(fileJob, { folder, job }, { signal }),
  };
}

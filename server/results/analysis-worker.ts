/** The thread that computes. It gets everything it needs with each job and keeps nothing. */
import { parentPort } from 'node:worker_threads';
import { doJob, type JobInput } from './analysis-jobs.ts';

export interface JobRequest {
  id: number;
  input: JobInput;
}
export type JobAnswer = { id: number; result: unknown } | { id: number; error: Error };

parentPort!.on('message', ({ id, input }: JobRequest) => {
  try {
    parentPort!.postMessage({ id, result: doJob(input) } satisfies JobAnswer);
  } catch (error) {
    const reason = error instanceof Error ? error : new Error(String(error));
    parentPort!.postMessage({ id, error: reason } satisfies JobAnswer);
  }
});

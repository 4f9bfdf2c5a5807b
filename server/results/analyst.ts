import type { Worker } from 'node:worker_threads';
import { AppError } from '../base/app-error.ts';
import { createIdleThreads } from '../base/idle-threads.ts';
import { buffersOf } from '../records/board-readings.ts';
import type { JobInput } from './analysis-jobs.ts';
import type { JobAnswer, JobRequest } from './analysis-worker.ts';

/**
 * Computes in a thread of its own. An analysis takes hundreds of milliseconds, and a serial port is read by the main one:
 * at 115200 baud its buffer holds less than two seconds.
 */
export interface Analyst {
  /** @throws AppError request/closing when it has been closed, also while it computes */
  do(input: JobInput): Promise<unknown>;
  close(): Promise<void>;
}

interface Waiting {
  resolve(result: unknown): void;
  reject(error: Error): void;
}

const threads = createIdleThreads(new URL('./analysis-worker', import.meta.url));

export function createAnalyst(): Analyst {
  const waiting = new Map<number, Waiting>();
  let worker: Worker | undefined;
  let lastId = 0;
  let closed = false;

  function fail(error: Error): void {
    worker = undefined;
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  }

  /** Taken at first need, and again after it has died. */
  function thread(): Worker {
    if (worker) return worker;
    const started = threads.take();
    started.on('message', (answer: JobAnswer) => {
      const { resolve, reject } = waiting.get(answer.id)!;
      waiting.delete(answer.id);
      if ('error' in answer) reject(answer.error);
      else resolve(answer.result);
    });
    started.on('error', fail);
    started.on('exit', () => {
      if (worker === started)
        fail(closed ? new AppError('request/closing') : new Error('The analysis was interrupted.'));
    });
    worker = started;
    return started;
  }

  return {
    do: (input) =>
      new Promise((resolve, reject) => {
        // A thread started now would outlive the service, and the process would wait for it for ever.
        if (closed) throw new AppError('request/closing');
        const id = ++lastId;
        waiting.set(id, { resolve, reject });
        thread().postMessage({ id, input } satisfies JobRequest, buffersOf(input.boards));
      }),
    async close() {
      closed = true;
      if (!worker) return;
      if (waiting.size > 0) await worker.terminate();
      else threads.giveBack(worker);
    },
  };
}

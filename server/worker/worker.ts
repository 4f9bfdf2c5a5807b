/** The way to the worker process: heavy work is asked for here, and nowhere else is a process or a thread started for it. */
import { Readable } from 'node:stream';
import { AppError } from '../base/app-error.ts';
import type { Job, Queue, StreamJob } from './job.ts';
import { type FromWorker, PIECES_AHEAD } from './messages.ts';
import type { RunningTask, WorkerHost } from './worker-host.ts';

export interface WorkOptions {
  /** Aborted when nobody waits for the answer any more: the work then stops within a second. */
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, of: number) => void) | undefined;
  /** Takes what the job publishes before its answer. */
  onEvent?: ((event: never) => void) | undefined;
  /** Instead of the job's own. */
  queue?: Queue | undefined;
}

/** What one service has done by the worker process. */
export interface Worker {
  /**
   * @throws AppError as the job does; worker/memory, worker/ended, worker/cancelled; request/closing when this has been closed
   */
  do<Input, Output>(job: Job<Input, Output>, input: Input, options?: WorkOptions): Promise<Output>;
  /**
   * The head of a stream, and its pieces as they are made: the reader sets the pace, and destroying them ends the work.
   * @throws AppError as `do`; later ones destroy the pieces
   */
  stream<Input, Head, Piece>(
    job: StreamJob<Input, Head, Piece>,
    input: Input,
    options?: WorkOptions,
  ): Promise<{ head: Head; pieces: Readable }>;
  /** Cancels what is under way, and resolves when nothing reads the data any more. */
  close(): Promise<void>;
}

export function createWorker(host: WorkerHost): Worker {
  const underWay = new Set<{ task: RunningTask; over: Promise<unknown> }>();
  let closed = false;

  /** @param receive what comes before the answer */
  function begin(
    job: Job<never, unknown> | StreamJob<never, unknown, unknown>,
    input: unknown,
    { signal, onProgress, onEvent, queue = job.queue }: WorkOptions,
    receive: (message: FromWorker) => void = () => {},
  ): { task: RunningTask; over: Promise<unknown> } {
    if (closed) throw new AppError('request/closing');
    if (signal?.aborted) throw new AppError('worker/cancelled');
    const { promise, resolve, reject } = Promise.withResolvers<unknown>();
    const task = host.start({
      name: job.name,
      queue,
      input,
      receive(message) {
        if (message.type === 'done') resolve(message.output);
        else if (message.type === 'progress') onProgress?.(message.done, message.of);
        else if (message.type === 'event') onEvent?.(message.event as never);
        else receive(message);
      },
      refuse: (error) => reject(closed ? new AppError('request/closing') : error),
    });
    signal?.addEventListener('abort', task.cancel);
    const begun = { task, over: promise };
    underWay.add(begun);
    const forget = () => {
      underWay.delete(begun);
      signal?.removeEventListener('abort', task.cancel);
    };
    promise.then(forget, forget);
    return begun;
  }

  return {
    do: async <Input, Output>(job: Job<Input, Output>, input: Input, options: WorkOptions = {}) =>
      (await begin(job as Job<never, unknown>, input, options).over) as Output,

    async stream<Input, Head, Piece>(job: StreamJob<Input, Head, Piece>, input: Input, options: WorkOptions = {}) {
      const head = Promise.withResolvers<Head>();
      let taken = 0;
      let isOver = false;
      const askMore = () => {
        if (taken > 0) task.more(taken);
        taken = 0;
      };
      const pieces = new Readable({
        objectMode: true,
        highWaterMark: PIECES_AHEAD,
        read: askMore,
        destroy(error, done) {
          if (!isOver) task.cancel();
          done(error);
        },
      });
      // It may fail before its reader listens, and is then found destroyed.
      pieces.on('error', () => {});
      const { task, over } = begin(job as StreamJob<never, unknown, unknown>, input, options, (message) => {
        if (message.type === 'head') head.resolve(message.head as Head);
        else if (message.type === 'piece') {
          taken += 1;
          if (pieces.push(message.piece)) askMore();
        }
      });
      over.then(
        () => {
          isOver = true;
          pieces.push(null);
        },
        (error: Error) => {
          isOver = true;
          head.reject(error);
          pieces.destroy(error);
        },
      );
      return { head: await head.promise, pieces };
    },

    async close() {
      closed = true;
      for (const { task } of underWay) task.cancel();
      await Promise.allSettled([...underWay].map(({ over }) => over));
    },
  };
}

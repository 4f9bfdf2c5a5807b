/** What the worker process runs: jobs in its own thread, foreign ones in a second, which can be ended at any moment. */
import { extname } from 'node:path';
import { isMainThread, parentPort, Worker } from 'node:worker_threads';
import { AppError } from '../base/app-error.ts';
import { type FromWorker, type ToWorker, writtenError } from './messages.ts';
import { type Handler, type Port, serveJobs } from './serve-jobs.ts';

/** A thread holds what its last file took. */
const IDLE_MS = 5_000;
const NURSERY = { maxYoungGenerationSizeMb: 12 };
const MEMORY_EVERY_MS = 100;

/** @param script of the process itself, without its ending: the second thread runs the same */
export function runWorker(script: URL, handlers: ReadonlyMap<string, Handler>): void {
  if (!isMainThread) {
    serveJobs(
      {
        send: (message) => parentPort!.postMessage(message),
        onMessage: (take) => void parentPort!.on('message', take),
      },
      handlers,
    );
    return;
  }
  // Whoever stops the service from a terminal stops the service; this process ends with it.
  for (const signal of ['SIGINT', 'SIGHUP', 'SIGTERM'] as const) process.on(signal, () => {});
  process.on('disconnect', () => process.exit());
  const send = (message: FromWorker) => void (process.connected && process.send!(message));
  if (process.platform !== 'linux') {
    setInterval(() => send({ type: 'memory', bytes: process.memoryUsage.rss() }), MEMORY_EVERY_MS).unref();
  }
  const foreign = createForeignThread(new URL(script.href + extname(import.meta.filename)), send);
  const own: Port = {
    send,
    onMessage: (take) =>
      void process.on('message', (message: ToWorker) => {
        if (!foreign.takes(message)) take(message);
      }),
  };
  serveJobs(own, handlers);
}

function createForeignThread(script: URL, send: (message: FromWorker) => void) {
  const running = new Set<number>();
  let thread: Worker | undefined;
  let idle: NodeJS.Timeout | undefined;

  function failAll(error: Error): void {
    for (const id of running) send({ type: 'failed', id, error: writtenError(error) });
    running.clear();
  }

  function started(): Worker {
    const worker = new Worker(script, { resourceLimits: NURSERY });
    worker.on('message', (message: FromWorker) => {
      send(message);
      if (message.type !== 'done' && message.type !== 'failed') return;
      running.delete(message.id);
      idle = setTimeout(end, IDLE_MS);
      idle.unref();
    });
    worker.on('error', (error: NodeJS.ErrnoException) => {
      if (thread === worker) thread = undefined;
      failAll(error.code === 'ERR_WORKER_OUT_OF_MEMORY' ? new AppError('worker/memory') : error);
    });
    return worker;
  }

  function end(): void {
    void thread?.terminate();
    thread = undefined;
  }

  return {
    /** Whether the message is about a foreign job, and has been dealt with. */
    takes(message: ToWorker): boolean {
      if (message.type === 'job' && message.queue === 'foreign') {
        clearTimeout(idle);
        running.add(message.id);
        thread ??= started();
        thread.postMessage(message);
        return true;
      }
      if (!running.has(message.id)) return false;
      if (message.type === 'cancel') {
        // Asked to stop it might not listen for a minute.
        const ended = thread;
        thread = undefined;
        void ended?.terminate().then(() => failAll(new Error('The work was cancelled.')));
      } else thread?.postMessage(message);
      return true;
    },
  };
}

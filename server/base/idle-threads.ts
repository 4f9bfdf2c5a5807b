import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';

/** More are ended: each holds tens of megabytes. */
const MOST_IDLE = 2;

/**
 * Threads that run one script, handed on within this process: to load what they compute with takes half a second.
 * @param script the file it runs, without its ending
 */
export function createIdleThreads(script: URL) {
  const idle = new Set<Worker>();

  return {
    /** One without work, or a new one. It does not keep the process running. */
    take(): Worker {
      const [known] = idle;
      if (known) {
        leave(known);
        idle.delete(known);
        return known;
      }
      // The installed package runs compiled files, the checkout runs these.
      const started = new Worker(new URL(script.href + extname(import.meta.filename)));
      started.unref();
      return started;
    },
    /** For whoever needs one next; with nobody listening to it any more. */
    giveBack(thread: Worker): void {
      leave(thread);
      thread.unref();
      if (idle.size >= MOST_IDLE) return void thread.terminate();
      idle.add(thread);
      // Without anybody to hear of it, an error in a thread would end this process.
      thread.once('error', () => idle.delete(thread));
      thread.once('exit', () => idle.delete(thread));
    },
  };
}

function leave(thread: Worker): void {
  for (const event of ['message', 'error', 'exit']) thread.removeAllListeners(event);
}

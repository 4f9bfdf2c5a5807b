/** A worker process with jobs made for trials: it runs the same loop as the service's own. */
import type { JobContext } from '../../../server/worker/job.ts';
import { runWorker } from '../../../server/worker/run-worker.ts';
import { handler, streamHandler } from '../../../server/worker/serve-jobs.ts';
import { type Done, echo, grow, hang, numbers, slow } from './trial-jobs.ts';

const order: string[] = [];

function done(name: string): Done {
  order.push(name);
  return { order: [...order], processId: process.pid };
}

function forEver(): never {
  for (;;);
}

function growForEver(): never {
  const taken: Buffer[] = [];
  for (;;) taken.push(Buffer.alloc(1024 ** 2, 1));
}

/** Goes on until it is cancelled, with turns for others. */
async function untilCancelled({ signal, progress }: JobContext): Promise<never> {
  for (let turn = 0; !signal.aborted; turn++) {
    progress(turn, turn + 1);
    await new Promise((resolve) => setImmediate(resolve));
  }
  throw new Error('cancelled');
}

runWorker(
  new URL('./trial-worker', import.meta.url),
  new Map([
    handler(echo, (name) => done(name)),
    handler(hang, () => forEver()),
    handler(grow, () => growForEver()),
    handler(slow, (_name, context) => untilCancelled(context)),
    streamHandler(numbers, (to) => ({
      head: process.pid,
      pieces: (function* () {
        for (let number = 0; number < to; number++) yield number;
      })(),
    })),
  ]),
);

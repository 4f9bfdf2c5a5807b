/** The worker of this program, whatever number of services or commands it runs. */
import { createWorker, type Worker } from './worker.ts';
import { createWorkerHost } from './worker-host.ts';

const MB = 1024 ** 2;

const host = createWorkerHost({
  script: new URL('../worker-process', import.meta.url),
  mostBytes: 240 * MB,
  heapMb: 200,
  idleMs: 10_000,
});

export function benchWorker(): Worker {
  return createWorker(host);
}

/** The worker of this program, whatever number of services or commands it runs. */
import { createWorker, type Worker } from './worker.ts';
import { createWorkerHost } from './worker-host.ts';

const MB = 1024 ** 2;

/** What the service and this process may have together, with room for what is taken between two looks; and what is lent in any case. */
const TOGETHER = 380 * MB;
const LEAST = 170 * MB;

const host = createWorkerHost({
  script: new URL('../worker-process', import.meta.url),
  mostBytes: () => Math.max(LEAST, TOGETHER - process.memoryUsage.rss()),
  heapMb: 160,
  idleMs: 10_000,
});

export function benchWorker(): Worker {
  return createWorker(host);
}

/** The worker of this program, whatever number of services or commands it runs. */
import { createWorker, type Worker } from './worker.ts';
import { createWorkerHost } from './worker-host.ts';

const MB = 1024 ** 2;

/** What the service and this process may have together, with room for what is taken between two looks, unless the person says otherwise. */
const TOGETHER_MB = Number(process.env.STOVEBENCH_MEMORY_MB) || 512;
/** Lent in any case. A file of four hours at ten scans a second takes 200 MB, and the process holds on to what an earlier one took. */
const LEAST_MB = 320;

const host = createWorkerHost({
  script: new URL('../worker-process', import.meta.url),
  mostBytes: () => Math.max(LEAST_MB * MB, TOGETHER_MB * MB - process.memoryUsage.rss()),
  heapMb: Math.max(160, Math.round(TOGETHER_MB / 2)),
  idleMs: 10_000,
});

export function benchWorker(): Worker {
  return createWorker(host);
}

/** The worker process: what it can be asked, and what does it. Each part is loaded when it is first needed. */
import { useCompileCache } from './base/start-up.ts';
import { fileJob, planJob } from './dataset/dataset-work.ts';
import { lookJob, readJob } from './imports/import-jobs.ts';
import { analysisJob } from './results/analyst.ts';
import { openStoreToRead } from './store/open-store.ts';
import type { Store } from './store/store.ts';
import { runWorker } from './worker/run-worker.ts';
import { handler, streamHandler } from './worker/serve-jobs.ts';

useCompileCache();

/** Open no longer than it is needed: whoever closes the data is to be the last to hold them. */
async function reading<T>(folder: string, work: (store: Store) => Promise<T>): Promise<T> {
  const store = openStoreToRead(folder);
  try {
    return await work(store);
  } finally {
    store.close();
  }
}

runWorker(
  new URL('./worker-process', import.meta.url),
  new Map([
    handler(analysisJob, async (input) => {
      const { compute } = await import('./results/compute.ts');
      return reading(input.folder, (store) => compute(store, input));
    }),
    handler(lookJob, async (input) => {
      const { lookAt } = await import('./imports/import-work.ts');
      return reading(input.folder, (store) => lookAt(store, input));
    }),
    streamHandler(readJob, async (input) => {
      const { readBurns } = await import('./imports/import-work.ts');
      const { burns, items, pages } = await reading(input.folder, (store) => readBurns(store, input));
      return { head: { burns: [...burns], items: [...items] }, pieces: pages };
    }),
    handler(planJob, async (input) => {
      const { makePlan } = await import('./dataset/dataset-jobs.ts');
      return makePlan(input);
    }),
    handler(fileJob, async ({ folder, job }) => {
      const { doFileJob } = await import('./dataset/dataset-jobs.ts');
      return reading(folder, (store) => doFileJob(store, job));
    }),
  ]),
);

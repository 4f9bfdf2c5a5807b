/** Results needed by another job of the worker process, and their publication to the service, which saves them. */
import type { Store } from '../store/store.ts';
import type { JobContext } from '../worker/job.ts';
import { createResults, type Results } from './results.ts';

/** A value with the name and stamp under which it is saved. */
type Derived = Parameters<Store['derived']['put']>;

/** @param store opened for reading: computed results are published for the service to save */
export function workerResults(store: Store, { publish }: Pick<JobContext, 'publish'>): Results {
  const put = (...derived: Derived) => publish(derived);
  // Most jobs find the results stored.
  const load = () => import('./compute.ts');
  return createResults(store, { do: async (input) => (await load()).compute(store, input) }, put);
}

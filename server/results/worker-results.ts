/** Results where they are needed for something else in the worker process, and how they come to be saved by the service. */
import type { Store } from '../store/store.ts';
import type { JobContext } from '../worker/job.ts';
import { compute } from './compute.ts';
import { createResults, type Results } from './results.ts';

/** What a value is saved under, and itself. */
type Derived = Parameters<Store['derived']['put']>;

/** @param store opened for reading: what is found is published for the service to save */
export function workerResults(store: Store, { publish }: Pick<JobContext, 'publish'>): Results {
  const put = (...derived: Derived) => publish(derived);
  return createResults({ ...store, derived: { ...store.derived, put } }, { do: (input) => compute(store, input) });
}

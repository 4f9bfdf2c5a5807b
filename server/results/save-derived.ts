import type { Store } from '../store/store.ts';

/** Saves values that the worker computed as part of another job. */
export function saveDerived(store: Store) {
  return ([burnId, name, stamp, value]: Parameters<Store['derived']['put']>): void => {
    // The burn may have been removed in between.
    if (!store.documents.get('burn', burnId)) return;
    try {
      store.derived.put(burnId, name, stamp, value);
    } catch {
      // A full disk has an alarm of its own, and the value can be computed again.
    }
  };
}

import type { Store } from '../store/store.ts';

/** Saves what the worker has worked out on its way to something else. */
export function saveDerived(store: Store) {
  return ([burnId, name, stamp, value]: Parameters<Store['derived']['put']>): void => {
    // The burn may have been removed meanwhile.
    if (!store.documents.get('burn', burnId)) return;
    try {
      store.derived.put(burnId, name, stamp, value);
    } catch {
      // A full disk has an alarm of its own, and what was computed can be computed again.
    }
  };
}

import { isAppError } from '../base/app-error.ts';
import type { Hub } from '../live/hub.ts';
import type { Store } from '../store/store.ts';
import type { Worker } from '../worker/worker.ts';
import { sealJob } from './backup-jobs.ts';
import { checkSeal, isSealed } from './readings-seal.ts';

/**
 * Seals the readings of every burn that ends or is imported, while the service runs.
 * @returns stops it; resolves when nothing is being read any more, so that the store can be closed
 */
export function sealEndedBurns(
  hub: Hub,
  store: Store,
  worker: Worker,
  onTrouble: (error: unknown) => void,
): () => Promise<void> {
  const underWay = new Map<string, Promise<void>>();

  async function seal(id: string): Promise<void> {
    try {
      await checkSeal(store, id, (burnId) => worker.do(sealJob, { folder: store.folder, burnId }));
    } catch (error) {
      // It is sealed after the next start.
      if (isAppError(error, 'request/closing')) return;
      // A burn may be removed while its readings are being read.
      if (store.documents.get('burn', id)) onTrouble(error);
    } finally {
      underWay.delete(id);
    }
  }

  const unsubscribe = hub.subscribe(({ event }) => {
    if (event.type !== 'burn') return;
    const { id, status } = event.burn;
    if (status === 'planned' || status === 'running' || underWay.has(id) || isSealed(store, id)) return;
    // Its readings are not complete yet; another event is published when they are.
    if (store.gaps.open(id).length > 0) return;
    underWay.set(id, seal(id));
  });
  return async () => {
    unsubscribe();
    await Promise.all(underWay.values());
  };
}

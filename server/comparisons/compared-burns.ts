/** Burns with their analyses, remembered from one comparison to the next until something is written about them. */
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import type { Store } from '../store/store.ts';

/** About 0.3 MB each. */
const MOST_REMEMBERED = 200;

export type ComparedBurns = ReturnType<typeof createComparedBurns>;

export function createComparedBurns() {
  const remembered = new Map<string, { changes: string; burn: ComparedBurn }>();

  /** @param read reads the burn from the store. The result is shared and must not be changed. */
  return async (store: Store, burnId: string, read: () => Promise<ComparedBurn>): Promise<ComparedBurn> => {
    const key = `${store.folder} ${burnId}`;
    const changes = store.changesOf(burnId);
    const known = remembered.get(key);
    remembered.delete(key);
    const burn = known && known.changes === changes ? known.burn : await read();
    if (changes !== undefined) remembered.set(key, { changes, burn });
    // The least recently used one goes first.
    for (const [oldest] of remembered) {
      if (remembered.size <= MOST_REMEMBERED) break;
      remembered.delete(oldest);
    }
    return burn;
  };
}

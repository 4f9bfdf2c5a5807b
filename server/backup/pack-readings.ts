import { AppError, isAppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { repeatWork } from '../base/repeated-work.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Store } from '../store/store.ts';
import { checkSeal } from './readings-seal.ts';

export interface PackingContext {
  store: Store;
  clock: Clock;
  onTrouble(error: unknown): void;
}

const IDLE_MS = 10_000;
/** Between two stretches, each of which blocks everything else for some 30 ms. */
const PAUSE_MS = 200;

/**
 * Packs readings while the service runs: the finished stretches of a running burn, and, while none runs, the readings
 * of finished burns, also of an older version. For a finished burn the seal of its readings is computed before and
 * after packing, and both must agree.
 * @returns stops it; resolves when no readings are being moved any more, so that the store can be closed
 */
export function packReadings({ store, clock, onTrouble }: PackingContext): () => Promise<void> {
  /** Burns that cannot be packed are left unchanged until the next start. */
  const refused = new Set<string>();
  let sealedId: string | undefined;

  async function packOver(id: string): Promise<void> {
    if (sealedId !== id && (await checkSeal(store, id)) === 'changed') throw new AppError('store/block-damaged');
    sealedId = id;
    await store.scans.pack(id, { isOver: true });
    if (store.scans.plainBurns().includes(id)) return;
    sealedId = undefined;
    if ((await checkSeal(store, id)) === 'changed') throw new AppError('store/block-damaged');
  }

  /** @returns false when there was nothing to do */
  async function packSome(): Promise<boolean> {
    const burns = store.scans
      .plainBurns()
      .flatMap((id) => (refused.has(id) ? [] : (store.documents.get('burn', id) ?? [])));
    const running = burns.filter(({ body }) => body.status === 'running');
    for (const { id } of running.length > 0 ? running : burns) {
      const isOver = running.length === 0 && store.gaps.open(id).length === 0;
      try {
        if (isOver) await packOver(id);
        else if (!(await store.scans.pack(id, { isOver }))) continue;
        return true;
      } catch (error) {
        // A full disk has an alarm of its own; packing continues when there is room.
        if (isAppError(readable(error, store.folder), 'store/full')) return false;
        refused.add(id);
        // A burn may be removed while its readings are being read.
        if (store.documents.get('burn', id)) onTrouble(error);
      }
    }
    return false;
  }

  return repeatWork(clock, IDLE_MS, async () => ((await packSome()) ? PAUSE_MS : IDLE_MS));
}

/**
 * A checksum over the readings of a burn, kept when it ends. The database notices a broken page, but not a changed bit
 * inside a reading; this does.
 */
import { createHash } from 'node:crypto';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { isAppError } from '../base/app-error.ts';
import type { Store } from '../store/store.ts';

const NAME = 'readingsSeal';

export type SealVerdict = 'same' | 'changed' | 'new';

/** Whether there is a seal for as many readings as there are. */
export function isSealed(store: Store, burnId: string): boolean {
  return store.derived.get(burnId, NAME, stampOf(store, burnId)) !== undefined;
}

/** Compares the readings with the seal made when there were as many, or makes it. */
export async function checkSeal(store: Store, burnId: string): Promise<SealVerdict> {
  const stamp = stampOf(store, burnId);
  const stored = store.derived.get(burnId, NAME, stamp);
  const found = await readingsChecksum(store, burnId).catch(unlessDamaged);
  if (found === undefined) return 'changed';
  if (stored !== undefined) return stored === found ? 'same' : 'changed';
  store.derived.put(burnId, NAME, stamp, found);
  return 'new';
}

/** Blocks have checksums of their own, and are not read when those are wrong. */
function unlessDamaged(error: unknown): undefined {
  if (!isAppError(error, 'store/block-damaged')) throw error;
}

function stampOf(store: Store, burnId: string): string {
  return JSON.stringify(store.scans.boards(burnId).map((id) => [id, store.scans.count(burnId, id)]));
}

async function readingsChecksum(store: Store, burnId: string): Promise<string> {
  const hash = createHash('sha256');
  for (const boardId of store.scans.boards(burnId).sort()) {
    hash.update(boardId);
    for (const page of store.scans.pages(burnId, boardId)) {
      for (const column of [page.elapsedUs, page.arrivedUs, page.uptimeMs, page.boot, page.sequence])
        hash.update(column);
      for (const column of [...page.counts, ...page.status]) hash.update(column);
      await nextTurn();
    }
  }
  return hash.digest('hex');
}

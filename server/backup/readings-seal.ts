/**
 * A checksum over the readings of a burn, saved when it ends. The database detects a damaged page, but not a changed
 * bit inside a reading; this does.
 */
import { createHash } from 'node:crypto';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { isAppError } from '../base/app-error.ts';
import type { Store } from '../store/store.ts';

const NAME = 'readingsSeal';

export type SealVerdict = 'same' | 'changed' | 'new';

/** Whether there is a seal for the present number of readings. */
export function isSealed(store: Store, burnId: string): boolean {
  return store.derived.get(burnId, NAME, stampOf(store, burnId)) !== undefined;
}

/**
 * Compares the readings with the seal made for the same number of them, or makes one. Readings are added after a seal
 * (scans that arrived late, merged burns) and never removed.
 * @param checksum reads them; in this process and with a turn for other work after each page unless stated otherwise
 */
export async function checkSeal(
  store: Store,
  burnId: string,
  checksum: (burnId: string) => Promise<string> = (id) => readingsChecksum(store, id),
): Promise<SealVerdict> {
  const stamp = stampOf(store, burnId);
  const sealed = store.derived.stamp(burnId, NAME);
  if (sealed !== undefined && scansIn(stamp) < scansIn(sealed)) return 'changed';
  const stored = store.derived.get(burnId, NAME, stamp);
  const found = await checksum(burnId).catch(unlessDamaged);
  if (found === undefined) return 'changed';
  if (stored !== undefined) return stored === found ? 'same' : 'changed';
  // Of readings that came meanwhile some are in it and some are not.
  if (stampOf(store, burnId) === stamp) store.derived.put(burnId, NAME, stamp, found);
  return 'new';
}

/** Blocks have checksums of their own, and are not read when those are wrong. @throws any error but store/block-damaged */
export function unlessDamaged(error: unknown): undefined {
  if (!isAppError(error, 'store/block-damaged')) throw error;
}

/** Scans of each board, as JSON. */
function stampOf(store: Store, burnId: string): string {
  return JSON.stringify(store.scans.boards(burnId).map((id) => [id, store.scans.count(burnId, id)]));
}

/** Over all boards, since the scans of one may be stored under another; 0 for an invalid stamp. */
function scansIn(stamp: string): number {
  const numbers = [...stamp.matchAll(/,(\d+)\]/g)].map(([, scans]) => Number(scans));
  return numbers.reduce((sum, scans) => sum + scans, 0);
}

/** @param pause awaited between any two pages of readings. @throws AppError store/block-damaged */
export async function readingsChecksum(
  store: Store,
  burnId: string,
  pause: () => Promise<unknown> = nextTurn,
): Promise<string> {
  const hash = createHash('sha256');
  for (const boardId of store.scans.boards(burnId).sort()) {
    hash.update(boardId);
    for (const page of store.scans.pages(burnId, boardId)) {
      for (const column of [page.elapsedUs, page.arrivedUs, page.uptimeMs, page.boot, page.sequence])
        hash.update(column);
      for (const column of [...page.counts, ...page.status]) hash.update(column);
      await pause();
    }
  }
  return hash.digest('hex');
}

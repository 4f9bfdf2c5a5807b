import type { OpenGap } from '../../shared/contract/burns.ts';
import type { Clock } from '../base/clock.ts';
import { stepUint32 } from '../bridge/sequence-numbers.ts';
import type { Store } from '../store/store.ts';

/** A board that sends hundreds of scans again changes the gaps of its burn with each of them. */
const LEAST_BETWEEN_MS = 1000;

/**
 * Publishes that the gaps of a burn have changed: once for many changes, and never within the transaction that makes
 * them.
 */
export function createGapEvents(clock: Clock, publish: (burnId: string) => void) {
  const noted = new Map<string, () => void>();
  return {
    note(burnId: string): void {
      if (noted.has(burnId)) return;
      const cancel = clock.setTimer(LEAST_BETWEEN_MS * clock.scale, () => {
        noted.delete(burnId);
        publish(burnId);
      });
      noted.set(burnId, cancel);
    },
    close(): void {
      for (const cancel of noted.values()) cancel();
      noted.clear();
    },
  };
}

/** Gaps of a burn that are still being fetched. `missingScans` is omitted where the number is unknown. */
export function openGaps(store: Store, burnId: string): OpenGap[] {
  const endUs = store.documents.get('burn', burnId)?.body.endedElapsedUs ?? Number.POSITIVE_INFINITY;
  return store.gaps.open(burnId).map(({ boardId, fromUs, toUs, cause, fromSequence, toSequence }) => ({
    ...(boardId !== undefined && { boardId }),
    fromUs: Math.min(fromUs, endUs),
    toUs: Math.min(toUs, endUs),
    cause,
    ...(fromSequence !== null && toSequence !== null && { missingScans: stepUint32(fromSequence, toSequence) + 1 }),
  }));
}

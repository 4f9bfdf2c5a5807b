import type { Clock } from '../base/clock.ts';
import { MOST_MISSED, stepUint32 } from '../bridge/sequence-numbers.ts';
import type { Store } from '../store/store.ts';

/**
 * A board holds its last hour at most (line protocol, "Memory"); one that is plugged in later no longer has the scans.
 */
const PATIENCE_MS = 3_600_000;
const COMPLETENESS = 'completeness';

export interface Completeness {
  /** Scans stored. */
  stored: number;
  /** Numbers between the first and the last scan of a board that belong to gaps. */
  missing: number;
}

export interface RepairContext {
  store: Store;
  clock: Clock;
  /** Queues a write until the disk accepts it. */
  write(work: () => void): void;
  /** Reports what is open of a burn as gaps. */
  giveUp(burnId: string): void;
  /** No more scans will arrive: the burn is as complete as it can become. */
  onOver(burnId: string): void;
}

/** Burns that have ended while scans of theirs can still be fetched. */
export function createRepairs({ store, clock, write, giveUp, onOver }: RepairContext) {
  const waiting = new Map<string, () => void>();

  function finish(burnId: string): void {
    waiting.get(burnId)?.();
    waiting.delete(burnId);
    write(() => {
      if (!store.documents.get('burn', burnId)) return;
      accountFor(store, burnId);
      onOver(burnId);
    });
  }

  function ended(burnId: string): void {
    waiting.set(
      burnId,
      clock.setTimer(PATIENCE_MS, () => giveUp(burnId)),
    );
    if (store.gaps.open(burnId).length === 0) finish(burnId);
  }

  return {
    /** The burn has ended: waits until nothing is missing any more, or no more scans will arrive. */
    ended,
    /** The gaps of a burn have changed. */
    changed(burnId: string): void {
      if (waiting.has(burnId) && store.gaps.open(burnId).length === 0) finish(burnId);
    },
    /** Whether scans of an ended burn are still waited for. */
    isOpen: (burnId: string): boolean => waiting.has(burnId),
    /** Resumes what was open when the service stopped. @returns whether anything was */
    resume(): boolean {
      const burns = store.gaps.openBurns().filter((id) => store.documents.get('burn', id)?.body.status !== 'running');
      for (const burnId of burns) ended(burnId);
      return burns.length > 0;
    },
    close(): void {
      for (const cancel of waiting.values()) cancel();
      waiting.clear();
    },
  };
}

/** The result when the repair of a burn was over; undefined for an open repair, and for an imported burn. */
export function completenessOf(store: Store, burnId: string): Completeness | undefined {
  return store.derived.get(burnId, COMPLETENESS, '1') as Completeness | undefined;
}

/** Makes sure that every number between the first and the last scan of each board is stored or belongs to a gap. */
function accountFor(store: Store, burnId: string): void {
  let [stored, missing] = [0, 0];
  for (const boardId of store.scans.boards(burnId)) {
    stored += store.scans.count(burnId, boardId);
    const gaps = store.gaps.list(burnId).filter((gap) => gap.boardId === boardId || gap.boardId === undefined);
    for (const { before, after } of store.scans.holes(burnId, boardId)) {
      const between = stepUint32(before.sequence, after.sequence) - 1;
      if (between > MOST_MISSED) continue;
      missing += between;
      const [fromUs, toUs] = [before.elapsedUs, after.elapsedUs];
      if (!covers(gaps, fromUs, toUs)) store.gaps.add(burnId, { boardId, fromUs, toUs, cause: 'lost' });
    }
  }
  store.derived.put(burnId, COMPLETENESS, '1', { stored, missing });
}

/** Whether gaps, in the order of time, cover a stretch completely. */
function covers(gaps: readonly { fromUs: number; toUs: number }[], fromUs: number, toUs: number): boolean {
  let reachedUs = fromUs;
  for (const gap of gaps) if (gap.fromUs <= reachedUs) reachedUs = Math.max(reachedUs, gap.toUs);
  return reachedUs >= toUs;
}

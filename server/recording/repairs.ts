import type { Clock } from '../base/clock.ts';
import { MOST_MISSED, stepUint32 } from '../bridge/sequence-numbers.ts';
import type { Store } from '../store/store.ts';

/** A board holds its last hour at most (line protocol, "Memory"); who plugs it in later finds it empty. */
const PATIENCE_MS = 3_600_000;
const COMPLETENESS = 'completeness';

export interface Completeness {
  /** Scans that are there. */
  stored: number;
  /** Numbers between the first and the last scan of a board that lie in gaps. */
  missing: number;
}

export interface RepairContext {
  store: Store;
  clock: Clock;
  /** Writes in its turn, when the disk takes it. */
  write(work: () => void): void;
  /** Tells what is open of a burn as gaps. */
  giveUp(burnId: string): void;
  /** Nothing more will come: the burn is as complete as it will be. */
  onOver(burnId: string): void;
}

/** Burns that have ended while scans of theirs could still be fetched. */
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
    /** The burn is over: waits until nothing is missing any more, or nothing more will come. */
    ended,
    /** The gaps of a burn have changed. */
    changed(burnId: string): void {
      if (waiting.has(burnId) && store.gaps.open(burnId).length === 0) finish(burnId);
    },
    /** Whether scans of an ended burn are still waited for. */
    isOpen: (burnId: string): boolean => waiting.has(burnId),
    /** Goes on with what was open when the service stopped. @returns whether anything was */
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

/** What was found when the repair of a burn was over; undefined for one that is open, or was brought from elsewhere. */
export function completenessOf(store: Store, burnId: string): Completeness | undefined {
  return store.derived.get(burnId, COMPLETENESS, '1') as Completeness | undefined;
}

/** Makes sure that every number between the first and the last scan of each board is there or lies in a gap. */
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

/** Whether gaps, in the order of time, lie over a stretch without leaving any of it open. */
function covers(gaps: readonly { fromUs: number; toUs: number }[], fromUs: number, toUs: number): boolean {
  let reachedUs = fromUs;
  for (const gap of gaps) if (gap.fromUs <= reachedUs) reachedUs = Math.max(reachedUs, gap.toUs);
  return reachedUs >= toUs;
}

import type { Clock } from '../base/clock.ts';
import type { BoardState } from '../bridge/bridge.ts';
import type { Store, StoredGap } from '../store/store.ts';
import type { BurnClock } from './burn-clock.ts';

const LOOK_EVERY_MS = 1000;
/** Bytes without a reading for this long, and for this many periods, raise an alarm. */
const LEAST_US = 5e6;
const PERIODS = 5;

/**
 * Checks that whatever a board sends while a burn runs becomes readings. It checks only whether bytes arrive while
 * nothing is stored, independently of the cause, so that no fault of a board, of a cable or of our own code goes
 * unnoticed.
 */
export type RecordingWatch = ReturnType<typeof createRecordingWatch>;

export interface RecordingWatchContext {
  store: Store;
  clock: Clock;
  time: BurnClock;
  boards(): BoardState[];
  /** The unrecorded stretches of a burn have changed. */
  onChanged(burnId: string): void;
}

interface Watched {
  sinceUs: number;
  /** By port. */
  unrecorded: Map<string, Unrecorded>;
}

interface Unrecorded {
  name: string;
  boardId: string;
  /** Where the stretch without readings began, on the burn's clock. */
  fromUs: number;
  /** The earliest reading in it that was stored later; scans wait until their board is identified. */
  readUs: number;
}

export function createRecordingWatch(context: RecordingWatchContext) {
  const { store, clock, time, boards, onChanged } = context;
  const watched = new Map<string, Watched>();
  const storedUs = new Map<string, number>();
  /** The board whose scans a port delivered last: while a cable is out, its board has no port. */
  const boardOf = new Map<string, string>();
  /** When a port that is not silent began to send. */
  const sendingSinceUs = new Map<string, number>();
  let cancel: () => void = () => {};

  const limitUs = ({ periodMs }: BoardState) => Math.max(LEAST_US * clock.scale, PERIODS * (periodMs ?? 0) * 1000);

  function look(): void {
    cancel = clock.setTimer(LOOK_EVERY_MS * clock.scale, look);
    const nowUs = clock.monotonicUs();
    const states = boards();
    for (const state of states) {
      if (state.boardKey !== null) boardOf.set(state.id, state.boardKey);
      const isSending = state.lastBytesUs !== null && nowUs - state.lastBytesUs <= limitUs(state);
      if (!isSending) sendingSinceUs.delete(state.id);
      else if (!sendingSinceUs.has(state.id)) sendingSinceUs.set(state.id, state.lastBytesUs!);
    }
    for (const [burnId, watch] of watched) lookAt(burnId, watch, states, nowUs);
  }

  function lookAt(burnId: string, watch: Watched, states: readonly BoardState[], nowUs: number): void {
    let changed = false;
    for (const state of states) {
      const { id, name, path } = state;
      const boardId = boardOf.get(id) ?? id;
      const sendingUs = sendingSinceUs.get(id);
      const lastUs = Math.max(watch.sinceUs, sendingUs ?? nowUs, storedUs.get(boardId) ?? 0);
      const isMissing = sendingUs !== undefined && nowUs - lastUs > limitUs(state);
      const known = watch.unrecorded.get(id);
      if (isMissing && !known) {
        const fromUs = Math.max(0, time.elapsedAt(burnId, lastUs) ?? 0);
        watch.unrecorded.set(id, { name: name ?? path, boardId, fromUs, readUs: Number.POSITIVE_INFINITY });
        changed = true;
      } else if (known && !isMissing) {
        watch.unrecorded.delete(id);
        write(burnId, known, false, limitUs(state));
        changed = true;
      }
      if (isMissing) write(burnId, watch.unrecorded.get(id)!, true);
    }
    for (const [id, gone] of watch.unrecorded) {
      if (states.some((state) => state.id === id)) continue;
      watch.unrecorded.delete(id);
      write(burnId, gone, false);
      changed = true;
    }
    if (changed) onChanged(burnId);
  }

  /**
   * Saves the stretch so far with the burn; an open one is extended each time, so that a kill loses a second of it.
   * Where the board's numbers show in the end which scans are missing, it is not reported twice.
   */
  function write(burnId: string, { boardId, fromUs, readUs }: Unrecorded, isOpen: boolean, leastUs = 0): void {
    const toUs = Math.max(fromUs, Math.min(readUs, time.now(burnId) ?? fromUs));
    const gap = { boardId, fromUs, toUs, cause: 'lost' as const, isOpen };
    try {
      const isNumbered = store.gaps
        .ofBoard(boardId)
        .some((each) => each.burnId === burnId && each.fromUs < toUs && each.toUs > fromUs);
      const parts = !isOpen && (isNumbered || toUs - fromUs < leastUs) ? [] : [gap];
      const known = store.gaps.open(burnId).find((each) => isStretch(each) && each.boardId === boardId);
      if (known) store.gaps.replace(known, parts);
      else for (const part of parts) store.gaps.add(burnId, part);
    } catch {
      // A full disk has an alarm of its own.
    }
  }

  look();
  return {
    /** A scan of this board was stored in running burns, at these moments on their clocks. */
    stored(boardId: string, burns: readonly { burnId: string; elapsedUs: number }[]): void {
      storedUs.set(boardId, clock.monotonicUs());
      for (const { burnId, elapsedUs } of burns) {
        const unrecorded = watched.get(burnId)?.unrecorded;
        if (!unrecorded?.size) continue;
        const port = boards().find(({ boardKey }) => boardKey === boardId)?.id;
        for (const [id, each] of unrecorded) {
          if ((id !== port && each.boardId !== boardId) || elapsedUs < each.fromUs) continue;
          each.readUs = Math.min(each.readUs, elapsedUs);
        }
      }
    },
    /** Ports that send data of which nothing is stored in the burn. */
    unrecorded: (burnId: string): { id: string; name: string }[] =>
      [...(watched.get(burnId)?.unrecorded ?? [])].map(([id, { name }]) => ({ id, name })),
    begin(burnId: string): void {
      // Left open by a run of the service that ended before it could close them.
      for (const gap of store.gaps.open(burnId).filter(isStretch)) {
        const { boardId, fromUs, toUs, cause } = gap;
        store.gaps.replace(gap, [{ ...(boardId !== undefined && { boardId }), fromUs, toUs, cause }]);
      }
      watched.set(burnId, { sinceUs: clock.monotonicUs(), unrecorded: new Map() });
    },
    end(burnId: string): void {
      for (const each of watched.get(burnId)?.unrecorded.values() ?? []) write(burnId, each, false);
      watched.delete(burnId);
    },
    close: (): void => cancel(),
  };
}

/** A gap of which only the times are known. */
function isStretch(gap: StoredGap): boolean {
  return gap.boot === null;
}

import type { Storage } from '../../shared/contract/stream.ts';
import { isAppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Hub } from '../live/hub.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Scan, Store } from '../store/store.ts';

/** Five and a half hours at one scan a second, half an hour at ten; a few megabytes of memory. */
const MOST_WAITING = 20_000;
/** A transaction of about 10 ms, so that emptying a long queue delays no serial port. */
const MOST_AT_ONCE = 500;
const TRY_AGAIN_MS = 5_000;
const GO_ON_MS = 50;

/**
 * Writes scans to the disk. While the disk accepts none, as when it is full, they wait in memory and are tried again;
 * scans that do not fit there either are lost, oldest first, and become a gap.
 */
export type ScanWriter = ReturnType<typeof createScanWriter>;

interface Waiting {
  /** Omitted for a write that belongs to no scan. */
  scan?: { burnId: string; boardId: string; scan: Scan };
  work(): void;
}

interface Lost {
  burnId: string;
  boardId: string;
  fromUs: number;
  toUs: number;
}

export interface ScanWriterContext {
  store: Store;
  clock: Clock;
  hub: Hub;
  onTrouble(error: unknown): void;
  /** The gaps of a burn have changed. */
  onGaps(burnId: string): void;
  mostWaiting?: number | undefined;
}

export function createScanWriter(context: ScanWriterContext) {
  const { store, clock, hub, onTrouble, onGaps, mostWaiting = MOST_WAITING } = context;
  let waiting: Waiting[] = [];
  let lost: Lost[] = [];
  let lostScans = 0;
  let problem: Storage['problem'];
  let cancelRetry: (() => void) | undefined;

  const waitingScans = () => waiting.filter(({ scan }) => scan).length;
  const state = (): Storage => ({ waitingScans: waitingScans(), lostScans, ...(problem && { problem }) });
  const publish = () => hub.publish({ type: 'storage', storage: state() });

  function retryIn(ms: number): void {
    cancelRetry?.();
    cancelRetry = clock.setTimer(ms, () => {
      cancelRetry = undefined;
      if (putSome()) {
        if (waiting.length > 0) retryIn(GO_ON_MS);
      } else publish();
    });
  }

  /** A write that can never succeed must not block the rest. */
  function attempt(work: () => void): void {
    try {
      work();
    } catch (error) {
      if (!isAppError(error)) throw error;
      onTrouble(error);
    }
  }

  /** Writes the oldest entries, all of them or none. @returns false when the disk accepts nothing */
  function putSome(): boolean {
    const some = waiting.slice(0, MOST_AT_ONCE);
    try {
      store.together(() => {
        for (const { work } of some) attempt(work);
        for (const { burnId, ...gap } of lost) store.gaps.add(burnId, { ...gap, cause: 'lost' });
      });
    } catch (error) {
      fail(error);
      return false;
    }
    for (const { burnId } of lost) onGaps(burnId);
    waiting = waiting.slice(some.length);
    lost = [];
    if (waiting.length === 0 && problem) {
      problem = undefined;
      lostScans = 0;
      publish();
    }
    return true;
  }

  function fail(error: unknown): void {
    const known = readable(error, store.folder);
    const { code, params } = isAppError(known) ? known : { code: 'request/failed' as const, params: {} };
    const first = problem === undefined;
    problem = { code, params };
    if (first) {
      onTrouble(error);
      publish();
    }
    retryIn(TRY_AGAIN_MS);
  }

  function wait(next: Waiting): void {
    waiting.push(next);
    if (waiting.length <= mostWaiting) return;
    const { scan: dropped } = waiting.shift()!;
    if (!dropped) return;
    const { burnId, boardId, scan } = dropped;
    lostScans++;
    const known = lost.find((gap) => gap.burnId === burnId && gap.boardId === boardId);
    if (known) known.toUs = scan.elapsedUs;
    else lost.push({ burnId, boardId, fromUs: scan.elapsedUs, toUs: scan.elapsedUs });
  }

  /** @returns false for an entry that can never be written */
  function put(next: Waiting, now: () => void): boolean {
    if (problem) {
      wait(next);
      return true;
    }
    try {
      now();
    } catch (error) {
      // A retry would fail again, and would block all later entries.
      if (isAppError(error)) {
        onTrouble(error);
        return false;
      }
      wait(next);
      fail(error);
    }
    return true;
  }

  return {
    state,
    /**
     * @param alongside what else is to be written in the same transaction
     * @returns false for a scan that can never be stored
     */
    store(burnId: string, boardId: string, scan: Scan, alongside?: () => void): boolean {
      const append = () => void store.scans.append(burnId, boardId, scan);
      const work = () => {
        alongside?.();
        append();
      };
      return put({ scan: { burnId, boardId, scan }, work }, alongside ? () => store.together(work) : append);
    },
    /** Queues another write: after every scan received before it. */
    write: (work: () => void): void => void put({ work }, () => store.together(work)),
    /** Writes everything that waits, if the disk accepts it. */
    flush(): void {
      while (waiting.length > 0 && putSome());
    },
    /** The burn was removed together with its scans. */
    forget(burnId: string): void {
      waiting = waiting.filter(({ scan }) => scan?.burnId !== burnId);
      lost = lost.filter((each) => each.burnId !== burnId);
    },
    close(): void {
      this.flush();
      cancelRetry?.();
    },
  };
}

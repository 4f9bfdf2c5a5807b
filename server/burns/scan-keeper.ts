import type { Storage } from '../../shared/contract/api.ts';
import { isAppError } from '../app-error.ts';
import type { Clock } from '../clock.ts';
import type { Hub } from '../live/hub.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Scan, Store } from '../store/store.ts';

/** At one scan a second five and a half hours, at ten half an hour; a few megabytes of memory. */
const MOST_WAITING = 20_000;
/** A transaction of about 10 ms, so that emptying a long queue holds up no serial port. */
const MOST_AT_ONCE = 500;
const TRY_AGAIN_MS = 5_000;
const GO_ON_MS = 50;

/**
 * Puts scans on the disk. While the disk takes none, as when it is full, they wait in memory and are tried again; what does
 * not fit there either is lost, oldest first, and becomes a gap.
 */
export interface ScanKeeper {
  /** @returns false for a scan that can never be kept */
  keep(burnId: string, boardId: string, scan: Scan): boolean;
  /** Puts down all that waits, if the disk takes it. */
  flush(): void;
  /** The burn is gone, and its scans with it. */
  forget(burnId: string): void;
  state(): Storage;
  close(): void;
}

interface Waiting {
  burnId: string;
  boardId: string;
  scan: Scan;
}

export interface ScanKeeperContext {
  store: Store;
  clock: Clock;
  hub: Hub;
  onTrouble(error: unknown): void;
  mostWaiting?: number | undefined;
}

export function createScanKeeper(context: ScanKeeperContext): ScanKeeper {
  const { store, clock, hub, onTrouble, mostWaiting = MOST_WAITING } = context;
  let waiting: Waiting[] = [];
  let lost: (Omit<Waiting, 'scan'> & { fromUs: number; toUs: number })[] = [];
  let lostScans = 0;
  let problem: Storage['problem'];
  let cancelRetry: (() => void) | undefined;

  const state = (): Storage => ({ waitingScans: waiting.length, lostScans, ...(problem && { problem }) });
  const tell = () => hub.publish({ type: 'storage', storage: state() });

  function retryIn(ms: number): void {
    cancelRetry?.();
    cancelRetry = clock.setTimer(ms, () => {
      cancelRetry = undefined;
      if (putSome()) {
        if (waiting.length > 0) retryIn(GO_ON_MS);
      } else tell();
    });
  }

  /** Puts the oldest down, all of them or none. @returns false when the disk takes nothing */
  function putSome(): boolean {
    const some = waiting.slice(0, MOST_AT_ONCE);
    try {
      store.together(() => {
        for (const { burnId, boardId, scan } of some) store.scans.append(burnId, boardId, scan);
        for (const { burnId, ...gap } of lost) store.gaps.add(burnId, { ...gap, cause: 'lost' });
      });
    } catch (error) {
      fail(error);
      return false;
    }
    for (const { burnId, ...gap } of lost) hub.publish({ type: 'gap', burnId, gap: { ...gap, cause: 'lost' } });
    waiting = waiting.slice(some.length);
    lost = [];
    if (waiting.length === 0 && problem) {
      problem = undefined;
      lostScans = 0;
      tell();
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
      tell();
    }
    retryIn(TRY_AGAIN_MS);
  }

  function wait(next: Waiting): void {
    waiting.push(next);
    if (waiting.length <= mostWaiting) return;
    const { burnId, boardId, scan } = waiting.shift()!;
    lostScans++;
    const known = lost.find((gap) => gap.burnId === burnId && gap.boardId === boardId);
    if (known) known.toUs = scan.elapsedUs;
    else lost.push({ burnId, boardId, fromUs: scan.elapsedUs, toUs: scan.elapsedUs });
  }

  return {
    state,
    keep(burnId, boardId, scan) {
      if (problem) {
        wait({ burnId, boardId, scan });
        return true;
      }
      try {
        store.scans.append(burnId, boardId, scan);
      } catch (error) {
        // Trying again would not make it a better one, and would hold up all that come after it.
        if (isAppError(error)) {
          onTrouble(error);
          return false;
        }
        wait({ burnId, boardId, scan });
        fail(error);
      }
      return true;
    },
    flush() {
      while (waiting.length > 0 && putSome());
    },
    forget(burnId) {
      waiting = waiting.filter((each) => each.burnId !== burnId);
      lost = lost.filter((each) => each.burnId !== burnId);
    },
    close() {
      this.flush();
      cancelRetry?.();
    },
  };
}

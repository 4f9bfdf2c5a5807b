import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { StoredDocument } from '../store/store.ts';

/** A moment further ahead than this is a mistake, not a fast clock. */
const MOST_AHEAD_US = 60e6;

/** The zero of every running burn on the service's clock. It may move once, right after a restart of the service. */
export type BurnClock = ReturnType<typeof createBurnClock>;

export function createBurnClock(clock: Clock) {
  const zeros = new Map<string, number>();
  const endedZeros = new Map<string, number>();
  const elapsedAt = (burnId: string, monotonicUs: number) => {
    const zeroUs = zeros.get(burnId);
    return zeroUs === undefined ? undefined : Math.round(monotonicUs - zeroUs);
  };
  return {
    start(burnId: string, zeroUs: number): void {
      endedZeros.delete(burnId);
      zeros.set(burnId, zeroUs);
    },
    stop(burnId: string): void {
      const zeroUs = zeros.get(burnId);
      if (zeroUs !== undefined) endedZeros.set(burnId, zeroUs);
      zeros.delete(burnId);
    },
    isRunning: (burnId: string): boolean => zeros.has(burnId),
    running: (): string[] => [...zeros.keys()],
    /** Converts the service's monotonic clock to the burn's; undefined while the burn does not run. */
    elapsedAt,
    now: (burnId: string): number | undefined => elapsedAt(burnId, clock.monotonicUs()),
    /**
     * Time on the clock of an ended burn, as if it had continued; undefined for one that ended before the service
     * started.
     */
    elapsedSinceEnded(burnId: string, monotonicUs: number): number | undefined {
      const zeroUs = endedZeros.get(burnId);
      return zeroUs === undefined ? undefined : Math.round(monotonicUs - zeroUs);
    },
  };
}

/**
 * The moment of an event `agoS` before now, on the burn's clock: on an ended burn, before its end.
 * @throws AppError mark/not-started
 */
export function momentBefore(time: BurnClock, burn: StoredDocument<'burn'>, agoS: number): number {
  const now = time.now(burn.id) ?? burn.body.endedElapsedUs;
  if (now === undefined) throw new AppError('mark/not-started');
  return now - Math.round(agoS * 1e6);
}

/** @throws AppError mark/in-the-future; applies to a running burn only */
export function refuseFuture(time: BurnClock, burnId: string, elapsedUs: number): void {
  const now = time.now(burnId);
  if (now !== undefined && elapsedUs > now + MOST_AHEAD_US) {
    throw new AppError('mark/in-the-future', { aheadS: (elapsedUs - now) / 1e6 });
  }
}

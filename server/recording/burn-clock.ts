import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { StoredDocument } from '../store/store.ts';

/** A moment further ahead than this is no hurried clock but a mistake. */
const MOST_AHEAD_US = 60e6;

/** Where zero lies on the clock of every running burn. Zero may move once, right after a restart of the service. */
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
    /** From the service's monotonic clock to the burn's; undefined while it does not run. */
    elapsedAt,
    now: (burnId: string): number | undefined => elapsedAt(burnId, clock.monotonicUs()),
    /** On the clock of a burn that has ended, as if it had gone on; undefined for one that ended before the service began. */
    elapsedSinceEnded(burnId: string, monotonicUs: number): number | undefined {
      const zeroUs = endedZeros.get(burnId);
      return zeroUs === undefined ? undefined : Math.round(monotonicUs - zeroUs);
    },
  };
}

/**
 * The moment of something that happened `agoS` before now: on a burn that has ended, before its end.
 * @throws AppError mark/not-started
 */
export function momentBefore(time: BurnClock, burn: StoredDocument<'burn'>, agoS: number): number {
  const now = time.now(burn.id) ?? burn.body.endedElapsedUs;
  if (now === undefined) throw new AppError('mark/not-started');
  return now - Math.round(agoS * 1e6);
}

/** @throws AppError mark/in-the-future; only a running burn has a future */
export function refuseFuture(time: BurnClock, burnId: string, elapsedUs: number): void {
  const now = time.now(burnId);
  if (now !== undefined && elapsedUs > now + MOST_AHEAD_US) {
    throw new AppError('mark/in-the-future', { aheadS: (elapsedUs - now) / 1e6 });
  }
}

import { AppError } from './app-error.ts';
import type { Clock } from './clock.ts';

/**
 * No recording can predate this software. A single-board computer without a battery starts in 1970, or at the date of
 * its system's image.
 */
const EARLIEST_UTC_MS = Date.UTC(2026, 0, 1);
const LATEST_UTC_MS = Date.UTC(2100, 0, 1);

export type ClockSource = 'machine' | 'phone' | 'none';

/**
 * A clock with a check whether its wall label can be right, and a way to set a better one. The monotonic clock stays
 * unchanged.
 */
export interface WallClock extends Clock {
  /** Whose wall clock is used now: the machine's own takes precedence as soon as it can be right. */
  source(): ClockSource;
  /** @throws AppError clock/not-needed, clock/implausible */
  offer(utcMs: number): void;
}

export function createWallClock(clock: Clock): WallClock {
  let offered: { utcMs: number; atUs: number } | undefined;
  const machineKnows = () => clock.wallMs() >= EARLIEST_UTC_MS;

  return {
    ...clock,
    get scale() {
      return clock.scale;
    },
    wallMs: () =>
      machineKnows() || !offered
        ? clock.wallMs()
        : offered.utcMs + Math.round((clock.monotonicUs() - offered.atUs) / 1000),
    source: () => (machineKnows() ? 'machine' : offered ? 'phone' : 'none'),
    offer(utcMs) {
      if (machineKnows()) throw new AppError('clock/not-needed');
      if (utcMs < EARLIEST_UTC_MS || utcMs > LATEST_UTC_MS) throw new AppError('clock/implausible');
      offered = { utcMs, atUs: clock.monotonicUs() };
    },
  };
}

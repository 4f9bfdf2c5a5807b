/**
 * Ages that increase while nothing arrives: a component that reads them is redrawn as time passes. Ages are in seconds
 * of the service, which pass faster than those of this device under a time scale.
 */
import { signal } from '@preact/signals';
import { timeScale } from '../requests/service.ts';
import { onLive } from './connection.ts';
import { burnNowUs } from './open-burn.ts';
import type { LatestReading } from './setup.ts';

const ticks = signal(0);
/** Arriving scans redraw the page; while they do, the timer only needs to run at this interval. */
const seldomMs = 5000;
const oftenMs = 1000;
const quietMs = 2500;

/** A reading counts as current for five seconds of the person who looks at it, whatever the time scale. */
const freshS = 5;
/** With a long period a reading is not old before the next scan is overdue. */
const freshPeriods = 1.5;

/** Start the timer of the page. Call once. */
export function startTicking(): void {
  let [scanMs, tickMs] = [0, 0];
  const tick = () => {
    tickMs = Date.now();
    ticks.value += 1;
  };
  onLive('scan', () => {
    scanMs = Date.now();
  });
  setInterval(() => {
    const now = Date.now();
    if (!document.hidden && (now - scanMs > quietMs || now - tickMs >= seldomMs)) tick();
  }, oftenMs);
  document.addEventListener('visibilitychange', tick);
}

/** Now on a burn's clock, as `burnNowUs`. */
export function burnNowAtTickUs(burnId: string): number | undefined {
  ticks.value;
  return burnNowUs(burnId);
}

/** Age of a reading on the bench, s. */
export function readingAgeS({ agoS, receivedMs }: LatestReading): number {
  ticks.value;
  return agoS + (Math.max(0, Date.now() - receivedMs) / 1000) * timeScale();
}

/**
 * Whether a reading of a board is no longer current.
 * @param ageS seconds of the service
 * @param periodMs between two scans of the board, where it is known
 */
export function isOld(ageS: number, periodMs = 0): boolean {
  return ageS > Math.max(freshS * timeScale(), (freshPeriods * periodMs) / 1000);
}

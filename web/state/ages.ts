/**
 * What grows older while nothing arrives: whoever reads these in a component is drawn again as time passes. Ages are told in seconds
 * of the service, which pass faster than those of this device where the service lets them.
 */
import { signal } from '@preact/signals';
import { timeScale } from '../requests/service.ts';
import { onLive } from './connection.ts';
import { burnNowUs } from './open-burn.ts';
import type { LatestReading } from './setup.ts';

const ticks = signal(0);
/** Scans draw a page anew as they come; while they do, time of its own need only pass now and then. */
const seldomMs = 5000;
const oftenMs = 1000;
const quietMs = 2500;

/** A figure is of now for five seconds of the person who looks at it, whatever the time scale. */
const freshS = 5;
/** A board that speaks seldom is not late before its next scan should long have come. */
const freshPeriods = 1.5;

/** Let time pass on the page. Call once. */
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
 * Whether a figure that a board sent is no longer one of now.
 * @param ageS seconds of the service
 * @param periodMs between two scans of the board, where it is known
 */
export function isOld(ageS: number, periodMs = 0): boolean {
  return ageS > Math.max(freshS * timeScale(), (freshPeriods * periodMs) / 1000);
}

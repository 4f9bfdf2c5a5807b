import type { Clock } from '../base/clock.ts';

const TICK_MS = 1_000;
/** A timer that fires this late means that this machine slept, or that nothing ran for as long: lines may be lost. */
const LATE_MS = 5_000;

/**
 * Detects that the machine slept: its timers stood still while its clock went on. Returns the function that stops the
 * watch.
 */
export function watchForSleep(clock: Clock, slept: () => void): () => void {
  const tickMs = TICK_MS * clock.scale;
  let lastUs = clock.monotonicUs();
  let cancel = (): void => {};
  const tick = (): void => {
    const nowUs = clock.monotonicUs();
    if ((nowUs - lastUs) / 1000 > tickMs + LATE_MS * clock.scale) slept();
    lastUs = nowUs;
    cancel = clock.setTimer(tickMs, tick);
  };
  cancel = clock.setTimer(tickMs, tick);
  return () => cancel();
}

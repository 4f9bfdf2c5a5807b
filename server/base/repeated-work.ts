import type { Clock } from './clock.ts';

/**
 * Repeats work as long as the service runs, each time after the number of milliseconds that the last run returned; in
 * real time, whatever the scale of the clock.
 * @returns stops it; resolves when a run in progress is over
 */
export function repeatWork(clock: Clock, firstInMs: number, work: () => Promise<number>): () => Promise<void> {
  let isStopped = false;
  let underWay: Promise<void> | undefined;
  let cancel = () => {};
  function workIn(ms: number): void {
    cancel = clock.setTimer(ms * clock.scale, () => {
      underWay = work().then((nextInMs) => {
        if (!isStopped) workIn(nextInMs);
      });
    });
  }
  workIn(firstInMs);
  return async () => {
    isStopped = true;
    cancel();
    await underWay;
  };
}

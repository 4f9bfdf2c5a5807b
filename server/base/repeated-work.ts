import type { Clock } from './clock.ts';

/**
 * Does work again and again as long as the service runs, each time as many milliseconds of real time after the last as that said,
 * however fast the clock runs.
 * @returns stops it; resolves when what was under way is over
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

import type { Clock } from '../base/clock.ts';

/** An alarm, and the time since a reading, need not be more exact. */
const EVERY_MS = 5000;

/** Advances the time of burns without a board: where a person reads the probes, minutes pass without an event. */
export function createTicker(clock: Clock, tick: (burnId: string) => void) {
  const followed = new Set<string>();
  let cancel: (() => void) | undefined;

  function again(): void {
    cancel?.();
    cancel =
      followed.size === 0
        ? undefined
        : clock.setTimer(EVERY_MS * clock.scale, () => {
            for (const burnId of followed) tick(burnId);
            again();
          });
  }

  return {
    follow(burnId: string, isByHand: boolean): void {
      if (followed.has(burnId) === isByHand) return;
      if (isByHand) followed.add(burnId);
      else followed.delete(burnId);
      again();
    },
    follows: (burnId: string): boolean => followed.has(burnId),
    close: (): void => cancel?.(),
  };
}

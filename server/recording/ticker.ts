import type { Clock } from '../base/clock.ts';

/** A call for the person, and the time since a reading, need be no more exact. */
const EVERY_MS = 5000;

/** Lets time pass for the burns in which no board does: where a person reads, minutes go by without a word. */
export interface Ticker {
  follow(burnId: string, isByHand: boolean): void;
  follows(burnId: string): boolean;
  close(): void;
}

export function createTicker(clock: Clock, tick: (burnId: string) => void): Ticker {
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
    follow(burnId, isByHand) {
      if (followed.has(burnId) === isByHand) return;
      if (isByHand) followed.add(burnId);
      else followed.delete(burnId);
      again();
    },
    follows: (burnId) => followed.has(burnId),
    close: () => cancel?.(),
  };
}

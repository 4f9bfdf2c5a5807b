import type { LiveEvent } from '../../shared/contract/stream.ts';

/** One numbered event; the text is serialised once for all subscribers. */
export interface Numbered {
  /** Epoch of the service and a counter, as one token: what a client sends back as Last-Event-ID. Undefined for what is not stored. */
  id: string | undefined;
  event: LiveEvent;
}

export type Hub = ReturnType<typeof createHub>;

/**
 * About three minutes at five events a second: enough for a tab that was hidden for a moment, or a phone out of reach
 * for a short walk.
 */
const STORED_EVENTS = 1000;

/**
 * @param epoch new at every start of the service, so that a counter of an earlier run is never mistaken for one of this
 *   run
 */
export function createHub(epoch: string, storedEvents = STORED_EVENTS) {
  const listeners = new Set<(numbered: Numbered) => void>();
  const stored: Numbered[] = [];
  let shown: Numbered | undefined;
  let counter = 0;
  const token = (count: number) => `${epoch}.${count}`;

  return {
    epoch,
    /** The token of the newest event. */
    latestId: (): string => token(counter),
    publish(event: LiveEvent): void {
      counter++;
      const numbered = { id: token(counter), event };
      stored.push(numbered);
      if (stored.length > storedEvents) stored.shift();
      for (const listener of [...listeners]) listener(numbered);
    },
    /** Publishes what counts only until the next of it: whoever comes later is sent the last one, and none before. */
    show(event: LiveEvent): void {
      shown = { id: undefined, event };
      for (const listener of [...listeners]) listener(shown);
    },
    shown: (): Numbered | undefined => shown,
    /** Calls `listener` for every later event; the returned function stops it. */
    subscribe(listener: (numbered: Numbered) => void): () => void {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    /** The events after `lastId`, or undefined when they are not (or no longer) stored here: then send a snapshot. */
    after(lastId: string | undefined): Numbered[] | undefined {
      const [lastEpoch, count] = lastId?.split('.') ?? [];
      if (lastEpoch !== epoch) return undefined;
      const missed = counter - Number(count);
      if (!(missed >= 0 && missed <= stored.length)) return undefined;
      return missed === 0 ? [] : stored.slice(-missed);
    },
  };
}

import type { LiveEvent } from '../../shared/contract/stream.ts';
import type { Hub } from './hub.ts';

type FrequentEvent = Extract<LiveEvent, { type: 'scan' | 'estimate' }>;

/** Five updates a second are enough for a reader; of a faster board only the newest scan is sent. */
const LEAST_BETWEEN_MS = 200;

/**
 * Passes scans and estimates to the live stream: of each board and burn the newest, at most once per interval. The
 * interval is real time, since it limits the load of a network and a screen, which no time scale makes faster.
 */
export function createScanFeed(hub: Hub, leastBetweenMs = LEAST_BETWEEN_MS) {
  const queues = new Map<string, { waiting: FrequentEvent | undefined; timer: NodeJS.Timeout }>();

  function pause(key: string): void {
    const timer = setTimeout(() => {
      const { waiting } = queues.get(key)!;
      queues.delete(key);
      if (!waiting) return;
      hub.publish(waiting);
      pause(key);
    }, leastBetweenMs);
    timer.unref();
    queues.set(key, { waiting: undefined, timer });
  }

  return {
    offer(event: FrequentEvent): void {
      const key = queueOf(event);
      const queue = queues.get(key);
      if (queue) {
        queue.waiting = event;
        return;
      }
      hub.publish(event);
      pause(key);
    },
    close(): void {
      for (const { timer } of queues.values()) clearTimeout(timer);
      queues.clear();
    },
  };
}

function queueOf(event: FrequentEvent): string {
  return event.type === 'scan' ? `scan ${event.boardId} ${event.burnId ?? ''}` : `estimate ${event.estimate.burnId}`;
}

import type { Estimate } from '../../shared/contract/live-estimates.ts';
import type { Clock } from '../base/clock.ts';
import type { Hub } from '../live/hub.ts';
import { createScanFeed } from '../live/scan-feed.ts';
import type { ScanValues } from '../readings/scan-values.ts';
import type { Setup } from '../setup/setup.ts';
import type { Store, StoredDocument } from '../store/store.ts';
import { createAlarms } from './alarms.ts';
import type { BurnClock } from './burn-clock.ts';
import { createLiveEstimates } from './live-estimates.ts';
import type { RecordingWatch } from './recording-watch.ts';
import { createTicker } from './ticker.ts';

export interface LiveBurnsContext {
  store: Store;
  clock: Clock;
  time: BurnClock;
  hub: Hub;
  setup: Pick<Setup, 'boards'>;
  watch: Pick<RecordingWatch, 'unrecorded'>;
  /** Plays the alarm sound on the bench machine itself: a phone out of reach is silent. */
  ring(): void;
  onTrouble(error: unknown): void;
}

/** Publishes the running burns: their scans, their estimates, and the alarms that follow from them. */
export function createLiveBurns({ store, clock, time, hub, setup, watch, ring, onTrouble }: LiveBurnsContext) {
  const feed = createScanFeed(hub);
  const estimates = createLiveEstimates(store, onTrouble);
  const alarms = createAlarms({ store, clock, time, hub, setup, watch, ring });
  const pass = (burnId: string) => publish(estimates.pass(burnId, time.now(burnId) ?? 0));
  const ticker = createTicker(clock, pass);

  function publish(estimate: Estimate | undefined): void {
    if (!estimate) return;
    feed.offer({ type: 'estimate', estimate });
    alarms.estimated(estimate);
  }

  function followByHand({ id, body }: StoredDocument<'burn'>): void {
    ticker.follow(id, time.isRunning(id) && body.channels.some(({ handRead }) => handRead));
  }

  return {
    begin(burn: StoredDocument<'burn'>): void {
      estimates.begin(burn.id);
      followByHand(burn);
    },
    changed(burn: StoredDocument<'burn'>): void {
      estimates.changed(burn.id);
      followByHand(burn);
    },
    /** A mark was created, changed or withdrawn. */
    marked(burnId: string): void {
      const estimate = estimates.marked(burnId);
      if (ticker.follows(burnId)) pass(burnId);
      else publish(estimate);
      alarms.look(burnId);
    },
    /**
     * @param burns those that stored the scan, with its moments on their clocks; without one, the scan is published for
     *   its board alone
     */
    scan(boardId: string, values: ScanValues, burns: readonly { burnId: string; elapsedUs: number }[]): void {
      const event = { type: 'scan' as const, boardId, ...values };
      if (burns.length === 0) feed.offer(event);
      for (const burn of burns) {
        feed.offer({ ...event, ...burn });
        publish(estimates.scan(burn.burnId, { elapsedUs: burn.elapsedUs, values: values.values }));
      }
    },
    /**
     * Re-evaluates the alarms after a change of the boards, or of what is recorded of them, for one burn or for all.
     */
    checkAlarms(burnId?: string): void {
      for (const id of burnId === undefined ? time.running() : [burnId]) alarms.look(id);
    },
    alarms: alarms.list,
    end(burnId: string): void {
      ticker.follow(burnId, false);
      estimates.end(burnId);
      alarms.end(burnId);
    },
    close(): void {
      estimates.close();
      feed.close();
      ticker.close();
    },
  };
}

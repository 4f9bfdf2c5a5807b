import type { BurnAlarms } from '../../shared/contract/alarms.ts';
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

/** What is published of the burns that run: their scans, what they have come to, and the alarms that follow from it. */
export interface LiveBurns {
  begin(burn: StoredDocument<'burn'>): void;
  changed(burn: StoredDocument<'burn'>): void;
  /** A mark was made, changed or taken back. */
  marked(burnId: string): void;
  /** @param burns which took the scan, at these moments of theirs; without one, the scan is published as its board's */
  scan(boardId: string, values: ScanValues, burns: readonly { burnId: string; elapsedUs: number }[]): void;
  /** Boards, or what is recorded of them, have changed: for one burn or for all. */
  checkAlarms(burnId?: string): void;
  alarms(): BurnAlarms[];
  end(burnId: string): void;
  close(): void;
}

export interface LiveBurnsContext {
  store: Store;
  clock: Clock;
  time: BurnClock;
  hub: Hub;
  setup: Pick<Setup, 'boards'>;
  watch: Pick<RecordingWatch, 'unrecorded'>;
  /** Sounds the bench machine itself: a phone out of reach is silent. */
  ring(): void;
}

export function createLiveBurns({ store, clock, time, hub, setup, watch, ring }: LiveBurnsContext): LiveBurns {
  const feed = createScanFeed(hub);
  const estimates = createLiveEstimates(store);
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
    begin(burn) {
      estimates.begin(burn.id);
      followByHand(burn);
    },
    changed(burn) {
      estimates.changed(burn.id);
      followByHand(burn);
    },
    marked(burnId) {
      const estimate = estimates.marked(burnId);
      if (ticker.follows(burnId)) pass(burnId);
      else publish(estimate);
      alarms.look(burnId);
    },
    scan(boardId, values, burns) {
      const event = { type: 'scan' as const, boardId, ...values };
      if (burns.length === 0) feed.offer(event);
      for (const burn of burns) {
        feed.offer({ ...event, ...burn });
        publish(estimates.scan(burn.burnId, { elapsedUs: burn.elapsedUs, values: values.values }));
      }
    },
    checkAlarms(burnId) {
      for (const id of burnId === undefined ? time.running() : [burnId]) alarms.look(id);
    },
    alarms: alarms.list,
    end(burnId) {
      ticker.follow(burnId, false);
      estimates.end(burnId);
      alarms.end(burnId);
    },
    close() {
      feed.close();
      ticker.close();
    },
  };
}

import { setImmediate as nextTurn } from 'node:timers/promises';
import { createLiveBurn, type LiveBurn, type LiveScan } from '../../shared/analysis/live/live-burn.ts';
import type { Estimate } from '../../shared/contract/live-estimates.ts';
import { type RecordWithoutReadings, recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';
import { isReadAsMeans, waterScans } from './water-scans.ts';

/** Followed in 10 ms, also by code that has just been loaded. */
const SCANS_A_TURN = 1000;

interface Running {
  live: LiveBurn;
  setup: string;
  /** What came while stored scans were being followed; undefined once they all are. */
  waiting: LiveScan[] | undefined;
}

/** Estimates of the running burns. */
export function createLiveEstimates(store: Store, onTrouble: (error: unknown) => void) {
  const running = new Map<string, Running>();

  function begin(burnId: string): void {
    const record = recordWithoutReadings(store, burnId);
    const live = createLiveBurn(record);
    live.marks(record.marks);
    const burn: Running = { live, setup: setupOf(record), waiting: [] };
    running.set(burnId, burn);
    follow(burn, record).catch(onTrouble);
  }

  /** Yields to the event loop between two turns; a short burn is followed at once. */
  async function follow(burn: Running, record: RecordWithoutReadings): Promise<void> {
    try {
      if (isReadAsMeans(store, record)) await nextTurn();
      if (running.get(record.id) !== burn) return;
      let count = 0;
      for (const scan of waterScans(store, record)) {
        burn.live.scan(scan);
        if (++count % SCANS_A_TURN > 0) continue;
        await nextTurn();
        if (running.get(record.id) !== burn) return;
      }
    } finally {
      for (const scan of burn.waiting ?? []) burn.live.scan(scan);
      burn.waiting = undefined;
    }
  }

  return {
    /**
     * Begins, or begins again after a restart or a change of the burn's description, from all scans stored so far. There is no
     * estimate until those of a long burn are followed.
     */
    begin,
    /** The description of the burn may have changed. */
    changed(burnId: string): void {
      const known = running.get(burnId);
      if (known && known.setup !== setupOf(recordWithoutReadings(store, burnId))) begin(burnId);
    },
    marked(burnId: string): Estimate | undefined {
      const burn = running.get(burnId);
      burn?.live.marks(recordWithoutReadings(store, burnId).marks);
      return estimateOf(burn);
    },
    scan(burnId: string, scan: LiveScan): Estimate | undefined {
      const burn = running.get(burnId);
      if (burn?.waiting) burn.waiting.push(scan);
      else burn?.live.scan(scan);
      return estimateOf(burn);
    },
    /** Time has passed, possibly without a scan of any board. */
    pass(burnId: string, elapsedUs: number): Estimate | undefined {
      const burn = running.get(burnId);
      if (!burn?.waiting) burn?.live.pass(elapsedUs);
      return estimateOf(burn);
    },
    end: (burnId: string): void => void running.delete(burnId),
    close: (): void => running.clear(),
  };
}

/** Nothing until all stored scans are followed. */
function estimateOf(burn: Running | undefined): Estimate | undefined {
  return burn?.waiting ? undefined : burn?.live.estimate();
}

/** What an estimate depends on besides scans and marks. */
function setupOf({ target, hold, place, channels }: RecordWithoutReadings): string {
  return JSON.stringify([target, hold, place, channels]);
}

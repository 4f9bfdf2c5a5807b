import { createLiveBurn, type LiveBurn, type LiveScan } from '../../shared/analysis/live/live-burn.ts';
import type { Estimate } from '../../shared/contract/live-estimates.ts';
import { type RecordWithoutReadings, recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';
import { waterScans } from './water-scans.ts';

/** Estimates of the running burns. */
export function createLiveEstimates(store: Store) {
  const running = new Map<string, { live: LiveBurn; setup: string }>();

  function begin(burnId: string): void {
    const record = recordWithoutReadings(store, burnId);
    const live = createLiveBurn(record);
    live.marks(record.marks);
    for (const scan of waterScans(store, record)) live.scan(scan);
    running.set(burnId, { live, setup: setupOf(record) });
  }

  return {
    /** Begins, or begins again after a restart or a change of the burn's description, from all scans stored so far. */
    begin,
    /** The description of the burn may have changed. */
    changed(burnId: string): void {
      const known = running.get(burnId);
      if (known && known.setup !== setupOf(recordWithoutReadings(store, burnId))) begin(burnId);
    },
    marked(burnId: string): Estimate | undefined {
      const live = running.get(burnId)?.live;
      live?.marks(recordWithoutReadings(store, burnId).marks);
      return live?.estimate();
    },
    scan(burnId: string, scan: LiveScan): Estimate | undefined {
      const live = running.get(burnId)?.live;
      live?.scan(scan);
      return live?.estimate();
    },
    /** Time has passed, possibly without a scan of any board. */
    pass(burnId: string, elapsedUs: number): Estimate | undefined {
      const live = running.get(burnId)?.live;
      live?.pass(elapsedUs);
      return live?.estimate();
    },
    end: (burnId: string): void => void running.delete(burnId),
  };
}

/** What an estimate depends on besides scans and marks. */
function setupOf({ target, hold, place, channels }: RecordWithoutReadings): string {
  return JSON.stringify([target, hold, place, channels]);
}

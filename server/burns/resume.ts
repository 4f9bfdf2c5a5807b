import type { ScanEvent } from '../bridge/bridge.ts';
import type { LabelClock } from '../label-clock.ts';
import type { KeptDocument, Scan, Store } from '../store/store.ts';
import type { BurnTime } from './burn-time.ts';

/** After a restart the burn's clock goes on by at least this much, whatever the wall clock says. */
const LEAST_STEP_US = 1e6;

/** Finds a burn's zero again after the service was down. */
export interface Resume {
  /**
   * Sets zero by the wall clock: the best there is until a board that went on counting says better.
   * @returns the last moment anything was kept for, and now
   */
  byWall(burn: KeptDocument<'burn'>): { lastUs: number; nowUs: number };
  /**
   * Sets zero by the clock of a board that was not reset meanwhile. Only the first scan after the restart may do that:
   * later the burn's clock has been used.
   */
  byBoard(scan: ScanEvent): void;
}

export function createResume(store: Store, clock: LabelClock, time: BurnTime): Resume {
  const waiting = new Map<string, Map<string, Scan>>();

  return {
    byWall(burn) {
      const boards = store.scans.boards(burn.id);
      const latest = new Map(
        boards.flatMap((boardId) => {
          const scan = store.scans.latest(burn.id, boardId);
          return scan ? [[boardId, scan]] : [];
        }),
      );
      const lastUs = Math.max(
        0,
        ...[...latest.values()].map(({ elapsedUs }) => elapsedUs),
        ...momentsOf(store, burn.id),
      );
      const bothKnown = clock.source() !== 'none' && burn.body.clockSource !== 'none';
      const byWallUs = bothKnown ? (clock.wallMs() - (burn.body.startedUtcMs ?? 0)) * 1000 : 0;
      const elapsedUs = Math.max(lastUs + LEAST_STEP_US, byWallUs);
      time.start(burn.id, clock.monotonicUs() - elapsedUs);
      waiting.set(burn.id, latest);
      return { lastUs, nowUs: Math.round(elapsedUs) };
    },

    byBoard(scan) {
      if (scan.repeated) return;
      for (const [burnId, latest] of waiting) {
        const last = latest.get(scan.boardKey);
        waiting.delete(burnId);
        if (!last || last.boot !== scan.boot) continue;
        // The board's clock counts milliseconds in 32 bits and wraps after seven weeks.
        const sinceUs = ((scan.deviceUptimeMs - last.uptimeMs) >>> 0) * 1000;
        time.start(burnId, scan.hostUs - (last.elapsedUs + sinceUs));
      }
    },
  };
}

function momentsOf(store: Store, burnId: string): number[] {
  return store.documents.ofBurn('mark', burnId).map(({ body }) => body.elapsedUs);
}

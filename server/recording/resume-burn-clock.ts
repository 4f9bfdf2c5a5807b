import type { WallClock } from '../base/wall-clock.ts';
import type { ScanEvent } from '../bridge/bridge.ts';
import type { Scan, Store, StoredDocument } from '../store/store.ts';
import { type BoardClock, boardClockIn, datesScan } from './board-clock.ts';
import type { BurnClock } from './burn-clock.ts';

/** After a restart the burn's clock advances by at least this much, whatever the machine's clocks show. */
const LEAST_STEP_US = 1e6;
/** A starting service receives lines late; lines that waited less show this within this time. */
const SETTLING_US = 10e6;

/**
 * Name of a derived value of a burn: its zero in time since the start of the machine, stamped with the identity of that
 * start.
 */
const ZERO = 'zero since boot';

/**
 * Sets a burn's zero, and restores it after the service was down.
 * @param write queues a write until the disk accepts it
 */
export function createResume(store: Store, clock: WallClock, time: BurnClock, write: (work: () => void) => void) {
  const waiting = new Map<string, Resumed>();

  function start(burnId: string, zeroUs: number): void {
    time.start(burnId, zeroUs);
    const machine = clock.sinceBoot();
    if (!machine) return;
    const zeroSinceBootUs = machine.us - (clock.monotonicUs() - zeroUs);
    write(() => store.derived.put(burnId, ZERO, machine.bootId, zeroSinceBootUs));
  }

  /** Elapsed time of a burn by the clocks of the machine; 0 where none of them provides it. */
  function elapsedByMachine({ id, body }: StoredDocument<'burn'>): number {
    const machine = clock.sinceBoot();
    const zeroUs = machine && (store.derived.get(id, ZERO, machine.bootId) as number | undefined);
    if (machine && zeroUs !== undefined) return machine.us - zeroUs;
    const bothKnown = clock.source() !== 'none' && body.clockSource !== 'none';
    return bothKnown ? (clock.wallMs() - (body.startedUtcMs ?? 0)) * 1000 : 0;
  }

  return {
    /** The burn begins now. */
    begin: (burnId: string): void => start(burnId, clock.monotonicUs()),

    /**
     * Sets zero by the time since the machine was started; after a start of the machine by its wall clock, which is the
     * best available until a board that kept counting provides a better one.
     * @returns the last moment for which anything was stored, and now
     */
    byMachine(burn: StoredDocument<'burn'>): { lastUs: number; nowUs: number } {
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
      const elapsedUs = Math.max(lastUs + LEAST_STEP_US, elapsedByMachine(burn));
      start(burn.id, clock.monotonicUs() - elapsedUs);
      const known = [...latest].flatMap(([boardId, scan]) => {
        const boardClock = boardClockIn(store.scans, burn.id, boardId, scan.boot);
        return boardClock ? [[boardId, { ...scan, clock: boardClock }] as const] : [];
      });
      waiting.set(burn.id, { latest: new Map(known), settling: undefined });
      return { lastUs, nowUs: Math.round(elapsedUs) };
    },

    /**
     * Sets zero by the clock of a board that was not reset in between: by its first live scan after the restart, and
     * during the seconds after it by any scan that has waited less. The zero taken from the machine's clocks is
     * replaced.
     */
    byBoard(scan: ScanEvent): void {
      if (scan.repeated || waiting.size === 0) return;
      const { sequence, deviceUptimeMs: uptimeMs } = scan;
      for (const [burnId, resumed] of waiting) {
        const { latest, settling } = resumed;
        const last = latest.get(scan.boardKey);
        if (settling && scan.arrivalUs > settling.untilUs) waiting.delete(burnId);
        else if (
          last?.boot === scan.boot &&
          datesScan(last.clock, { sequence, uptimeMs }) &&
          (!settling || settling.boardId === scan.boardKey)
        ) {
          // The board's clock counts milliseconds in 32 bits and wraps after seven weeks.
          const sinceUs = ((uptimeMs - last.uptimeMs) >>> 0) * 1000;
          const zeroUs = scan.hostUs - (last.elapsedUs + sinceUs);
          if (settling && zeroUs >= settling.zeroUs) continue;
          start(burnId, zeroUs);
          const untilUs = settling?.untilUs ?? scan.arrivalUs + SETTLING_US * clock.scale;
          waiting.set(burnId, { latest, settling: { boardId: scan.boardKey, zeroUs, untilUs } });
        }
      }
    },

    end: (burnId: string): void => void waiting.delete(burnId),
  };
}

interface Resumed {
  /** The newest scan of each board from before the restart, and how its clock ran. */
  latest: ReadonlyMap<string, Scan & { clock: BoardClock }>;
  settling: { boardId: string; zeroUs: number; untilUs: number } | undefined;
}

function momentsOf(store: Store, burnId: string): number[] {
  return store.documents.ofBurn('mark', burnId).map(({ body }) => body.elapsedUs);
}

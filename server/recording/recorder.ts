import type { Channel } from '../../shared/contract/burn-record.ts';
import type { GapEvent, KnownScans, RenameEvent, ScanEvent } from '../bridge/bridge.ts';
import { createGrowingCurve, type GrowingCurve } from '../curves/small-curve.ts';
import { readingsOf } from '../readings/scan-readings.ts';
import { type ScanValues, waterOf } from '../readings/scan-values.ts';
import type { NewGap, Scan, Store, StoredDocument } from '../store/store.ts';
import { boardClockIn } from './board-clock.ts';
import type { BurnClock } from './burn-clock.ts';
import { isEnd } from './gap-parts.ts';
import { createMissingScanLog, type Dated } from './missing-scans.ts';
import type { ScanWriter } from './scan-writer.ts';

interface Recording {
  channels: readonly Channel[];
  curve: GrowingCurve;
  /** The newest scan of each board. */
  newest: Map<string, Dated>;
}

export interface RecorderContext {
  store: Store;
  time: BurnClock;
  scans: ScanWriter;
  /** The gaps of a burn have changed. */
  onGaps(burnId: string): void;
}

/**
 * Name of a derived value of a burn: the newest scan of each board at its zero. Stored for a run of the service that
 * finds no scan of the burn.
 */
const AT_ZERO = 'newest scans at zero';

/** A live scan that arrived this long after the burn began was not read before it, whatever the board's clock shows. */
const LATEST_FROM_BEFORE_US = 5e6;

/** Stores the scans of the boards in the running burns, and fetched scans in the burns in which they are missing. */
export function createRecorder({ store, time, scans, onGaps }: RecorderContext) {
  const recordings = new Map<string, Recording>();
  const missing = createMissingScanLog(store, time);
  /** The newest live scan of each board, whether or not a burn runs. */
  const received = new Map<string, KnownScans['last']>();
  /** Boards for which a burn has waited since it ended. */
  const awaited = new Set(
    store.gaps.openBurns().flatMap((burnId) => store.gaps.open(burnId).flatMap(({ boardId }) => boardId ?? [])),
  );

  function storeLive(burnId: string, recording: Recording, scan: ScanEvent, values: ScanValues): number | undefined {
    const readUs = time.elapsedAt(burnId, scan.hostUs);
    const arrivedUs = time.elapsedAt(burnId, scan.arrivalUs);
    if (readUs === undefined || arrivedUs === undefined) return undefined;
    const wasBefore = readUs < 0;
    const isEarly = scan.clock === 'right' ? arrivedUs < LATEST_FROM_BEFORE_US : arrivedUs < 0;
    if (wasBefore && isEarly) return undefined;
    const { boardKey, boot, sequence, deviceUptimeMs: uptimeMs, missed } = scan;
    const before = recording.newest.get(boardKey);
    // The order of scans is that of the board, however a restart has changed the clocks.
    const elapsedUs = Math.max(wasBefore ? arrivedUs : readUs, (before?.elapsedUs ?? -1) + 1);
    const stored: Scan = { boot, sequence, uptimeMs, elapsedUs, arrivedUs, readings: readingsOf(scan) };
    const isNext = before ? before.boot === boot && (before.sequence + 1) >>> 0 === sequence : missed === null;
    const isStored = scans.store(burnId, boardKey, stored, isNext ? undefined : () => missedBefore(stored));
    if (!isStored) return undefined;
    recording.newest.set(boardKey, { boot, sequence, uptimeMs, elapsedUs });
    const water = waterOf(recording.channels, values);
    if (water !== undefined) recording.curve.add(elapsedUs / 1e6, water);
    return elapsedUs;

    function missedBefore(dated: Dated): void {
      missing.missed(burnId, boardKey, before, dated, missed);
      onGaps(burnId);
    }
  }

  /** The newest scan of a board known to a burn; if it has none of its own, the one before its zero. */
  function newestKnown(burnId: string, boardId: string): KnownScans | undefined {
    const own = store.scans.latest(burnId, boardId);
    if (own) {
      const { boot, sequence, uptimeMs: deviceUptimeMs } = own;
      const clock = boardClockIn(store.scans, burnId, boardId, boot)?.verdict ?? 'unknown';
      return { last: { boot, sequence, deviceUptimeMs }, clock, holes: [] };
    }
    const atZero = store.derived.get(burnId, AT_ZERO, '') as [string, KnownScans['last']][] | undefined;
    const last = atZero?.find(([id]) => id === boardId)?.[1];
    return last && { last, clock: 'unknown', holes: [] };
  }

  const change = (work: () => readonly string[]) =>
    scans.write(() => {
      for (const burnId of new Set(work())) onGaps(burnId);
    });

  return {
    /** Begins (or continues) to record a burn whose zero on the service's clock is known. */
    begin(
      burn: StoredDocument<'burn'>,
      how: 'new' | 'reopened' | 'restarted',
      curve: readonly [number, number][] = [],
    ): void {
      const sketch = createGrowingCurve();
      for (const [elapsedS, value] of curve) sketch.add(elapsedS, value);
      const newest = new Map<string, Dated>();
      if (how === 'new') scans.write(() => store.derived.put(burn.id, AT_ZERO, '', [...received]));
      if (how === 'reopened') missing.reopened(burn.id);
      if (how === 'restarted') {
        for (const boardId of store.scans.boards(burn.id)) {
          const latest = store.scans.latest(burn.id, boardId);
          if (latest) newest.set(boardId, latest);
        }
      }
      recordings.set(burn.id, { channels: burn.body.channels, curve: sketch, newest });
    },
    /** The probes of a running burn have changed. */
    use(burn: StoredDocument<'burn'>): void {
      const recording = recordings.get(burn.id);
      if (recording) recording.channels = burn.body.channels;
    },
    /**
     * The burn has ended; scans that its boards have not sent yet are waited for.
     * @param causeOf why a board may have sent nothing lately
     */
    end(burnId: string, endedUs: number, causeOf: (boardId: string) => NewGap['cause']): void {
      // Flushed first, since the state of the burn is then read from the disk.
      scans.flush();
      const newest = recordings.get(burnId)?.newest ?? new Map<string, Dated>();
      recordings.delete(burnId);
      change(() => {
        for (const [boardId, scan] of newest) {
          missing.endedAfter(burnId, boardId, scan, endedUs, causeOf(boardId));
          awaited.add(boardId);
        }
        return [burnId];
      });
    },
    forget: (burnId: string): void => void recordings.delete(burnId),
    /** @returns the running burns that stored it, with its moments on their clocks */
    take(scan: ScanEvent, values: ScanValues): { burnId: string; elapsedUs: number }[] {
      if (scan.repeated) {
        change(() => missing.recovered(scan));
        return [];
      }
      received.set(scan.boardKey, { boot: scan.boot, sequence: scan.sequence, deviceUptimeMs: scan.deviceUptimeMs });
      if (awaited.delete(scan.boardKey)) {
        change(() => {
          const burns = missing.receivedAfterEnd(scan);
          if (burns.some((burnId) => store.gaps.open(burnId).some(isEnd))) awaited.add(scan.boardKey);
          return burns;
        });
      }
      return [...recordings].flatMap(([burnId, recording]) => {
        const elapsedUs = storeLive(burnId, recording, scan, values);
        return elapsedUs === undefined ? [] : [{ burnId, elapsedUs }];
      });
    },
    gap: (gap: GapEvent): void => change(() => missing.givenUp(gap)),
    /** No more scans are expected. */
    giveUp: (burnId: string, boardId?: string): void =>
      change(() => {
        missing.report(burnId, boardId);
        return [burnId];
      }),
    renamed({ from, to, boots }: RenameEvent): void {
      for (const [burnId, { newest }] of recordings) {
        const scan = newest.get(from);
        if (!scan || !boots.includes(scan.boot)) continue;
        newest.delete(from);
        newest.set(to, scan);
        change(() => {
          for (const boot of boots) {
            store.scans.move(burnId, from, to, boot);
            store.gaps.rename(burnId, from, to, boot);
          }
          return [burnId];
        });
      }
    },
    /** The small curve of a running burn so far. */
    curveOf: (burnId: string): [number, number][] | undefined => recordings.get(burnId)?.curve.points(),
    /** What the burns have stored of a board and what is missing, so that the bridge can fetch it. */
    knownScansOf(boardId: string): KnownScans | null {
      const gaps = store.gaps.ofBoard(boardId).filter(({ isOpen }) => isOpen);
      // A board is in the middle of at most one burn; scans it made after an earlier one are not missing.
      const burns = [...gaps.map(({ burnId }) => burnId), ...recordings.keys()];
      const newest = burns.flatMap((burnId) => newestKnown(burnId, boardId) ?? []).at(-1);
      if (!newest) return null;
      return {
        ...newest,
        holes: gaps.flatMap(({ boot, fromSequence: from, toSequence: to, cause, beforeMs, afterMs }) =>
          boot === null || from === null || to === null
            ? []
            : [{ boot, from, to, cause, beforeMs, afterMs: afterMs ?? 0 }],
        ),
      };
    },
  };
}

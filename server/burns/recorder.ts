import type { Channel } from '../../shared/contract/burn-record.ts';
import { readingsOf } from '../bench/scan-readings.ts';
import type { GapEvent, LastScan, ScanEvent, ScanPoint } from '../bridge/bridge.ts';
import type { Hub } from '../live/hub.ts';
import type { KeptDocument, Scan, Store } from '../store/store.ts';
import type { BurnTime } from './burn-time.ts';
import { type CurveSketch, createCurveSketch } from './curve-sketch.ts';
import type { ScanKeeper } from './scan-keeper.ts';
import { type ScanValues, waterOf } from './scan-values.ts';

/** Joins what the boards send into the burns that run. */
export interface Recorder {
  /** Begins (or goes on) to record a burn whose zero on the service's clock is known. */
  begin(burn: KeptDocument<'burn'>, curve?: readonly [number, number][]): void;
  /** The probes of a running burn have changed. */
  use(burn: KeptDocument<'burn'>): void;
  end(burnId: string): void;
  /** @returns the running burns that kept it, with the moment on their clocks */
  take(scan: ScanEvent, values: ScanValues): { burnId: string; elapsedUs: number }[];
  gap(gap: GapEvent): void;
  /** The small curve of a running burn so far. */
  curveOf(burnId: string): [number, number][] | undefined;
  /** The newest scan of a board that any running burn has, so that the bridge can fetch what came since. */
  lastScanOf(boardId: string): LastScan | null;
}

interface Recording {
  channels: readonly Channel[];
  curve: CurveSketch;
}

export interface RecorderContext {
  store: Store;
  time: BurnTime;
  hub: Hub;
  scans: ScanKeeper;
  /** Something could not be kept: the person must hear of it, and recording goes on. */
  onTrouble(error: unknown): void;
}

export function createRecorder({ store, time, hub, scans, onTrouble }: RecorderContext): Recorder {
  const recordings = new Map<string, Recording>();

  function keep(burnId: string, recording: Recording, scan: ScanEvent, values: ScanValues): number | undefined {
    const elapsedUs = time.elapsedAt(burnId, scan.hostUs);
    const arrivedUs = time.elapsedAt(burnId, scan.arrivalUs);
    // A board may send again what it measured before the burn began.
    if (elapsedUs === undefined || arrivedUs === undefined || elapsedUs < 0) return undefined;
    const { boot, sequence, deviceUptimeMs: uptimeMs } = scan;
    const kept: Scan = { boot, sequence, uptimeMs, elapsedUs, arrivedUs, readings: readingsOf(scan) };
    if (!scans.keep(burnId, scan.boardKey, kept)) return undefined;
    const water = waterOf(recording.channels, values);
    if (water !== undefined) recording.curve.add(elapsedUs / 1e6, water);
    return elapsedUs;
  }

  /** Where a gap begins or ends on the burn's clock; a scan of an earlier run of the service is looked up. */
  function momentOf(burnId: string, boardId: string, point: ScanPoint): number | undefined {
    if (point.hostUs !== null) return time.elapsedAt(burnId, point.hostUs);
    return store.scans.find(burnId, boardId, point)?.elapsedUs;
  }

  return {
    begin(burn, curve = []) {
      const sketch = createCurveSketch();
      for (const [elapsedS, value] of curve) sketch.add(elapsedS, value);
      recordings.set(burn.id, { channels: burn.body.channels, curve: sketch });
    },
    use(burn) {
      const recording = recordings.get(burn.id);
      if (recording) recording.channels = burn.body.channels;
    },
    end(burnId) {
      // Before the burn is sealed as it stands on the disk.
      scans.flush();
      recordings.delete(burnId);
    },
    take: (scan, values) =>
      [...recordings].flatMap(([burnId, recording]) => {
        const elapsedUs = keep(burnId, recording, scan, values);
        return elapsedUs === undefined ? [] : [{ burnId, elapsedUs }];
      }),
    gap({ boardKey, from, to, cause }) {
      for (const burnId of recordings.keys()) {
        const toUs = momentOf(burnId, boardKey, to);
        const fromUs = from ? (momentOf(burnId, boardKey, from) ?? 0) : 0;
        if (toUs === undefined || toUs <= 0) continue;
        const gap = { boardId: boardKey, fromUs: Math.max(0, Math.min(fromUs, toUs)), toUs, cause };
        try {
          store.gaps.add(burnId, gap);
        } catch (error) {
          onTrouble(error);
          continue;
        }
        hub.publish({ type: 'gap', burnId, gap });
      }
    },
    curveOf: (burnId) => recordings.get(burnId)?.curve.points(),
    lastScanOf(boardId) {
      const newest = [...recordings.keys()].flatMap((burnId) => store.scans.latest(burnId, boardId) ?? []);
      const last = newest.sort((a, b) => b.arrivedUs - a.arrivedUs)[0];
      return last ? { boot: last.boot, sequence: last.sequence, deviceUptimeMs: last.uptimeMs } : null;
    },
  };
}

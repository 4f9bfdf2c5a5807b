import type { Channel } from '../../shared/contract/burn-record.ts';
import type { LiveEvent } from '../../shared/contract/stream.ts';
import { newId } from '../base/identifiers.ts';
import type { WallClock } from '../base/wall-clock.ts';
import { type Bridge, createBridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import {
  createGrowingCurve,
  type SmallCurve,
  saveSmallCurve,
  smallCurve,
  storedSmallCurve,
} from '../curves/small-curve.ts';
import type { Hub } from '../live/hub.ts';
import { waterOf } from '../readings/scan-values.ts';
import { assembleRecord } from '../records/burn-record.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import { createSetup } from '../setup/setup.ts';
import type { NewGap, Store, StoredDocument } from '../store/store.ts';
import type { BurnClock } from './burn-clock.ts';
import { createGapEvents, openGaps } from './gap-events.ts';
import { createLiveBurns } from './live-burns.ts';
import { createRecorder } from './recorder.ts';
import { createRecordingWatch } from './recording-watch.ts';
import { createRepairs } from './repairs.ts';
import { createResume } from './resume-burn-clock.ts';
import { createScanWriter } from './scan-writer.ts';
import { waterScans } from './water-scans.ts';

export interface RecordingContext {
  store: Store;
  clock: WallClock;
  time: BurnClock;
  hub: Hub;
  ports: PortFactory;
  onTrouble(error: unknown): void;
  /** Scans that may wait in memory while the disk takes none. */
  mostWaitingScans?: number | undefined;
  /** Plays the alarm sound on the bench machine. */
  ring?: (() => void) | undefined;
  /** The probes of a running burn have changed. */
  onChannels(burnId: string, channels: Channel[]): void;
  /** The readings of an ended burn are complete, or as complete as they can become. */
  onComplete(burnId: string): void;
}

/** Connects the ports to the readings of the running burns, their gaps and their repair. */
export function createRecording(context: RecordingContext) {
  const { store, clock, time, hub, onTrouble } = context;
  const scans = createScanWriter({
    store,
    clock,
    hub,
    onTrouble,
    onGaps: (burnId) => gapNews.note(burnId),
    mostWaiting: context.mostWaitingScans,
  });
  const recorder = createRecorder({ store, time, scans, onGaps: (burnId) => gapNews.note(burnId) });
  const repairs = createRepairs({
    store,
    clock,
    write: scans.write,
    giveUp: recorder.giveUp,
    onOver(burnId) {
      saveSmallCurve(store, burnId, readCurve(store, burnId));
      context.onComplete(burnId);
    },
  });
  const gapNews = createGapEvents(clock, (burnId) => {
    if (!store.documents.get('burn', burnId)) return;
    hub.publish({ type: 'gaps', burnId, gaps: store.gaps.list(burnId), repairs: openGaps(store, burnId) });
    repairs.changed(burnId);
  });
  const resume = createResume(store, clock, time, scans.write);
  const bridge = createBridge({
    clock,
    ports: context.ports,
    newId: () => newId(clock.wallMs()),
    knownScansOf: recorder.knownScansOf,
  });
  const setup = createSetup({
    store,
    clock,
    bridge,
    ports: context.ports,
    publish(event) {
      hub.publish(event);
      if (event.type === 'board') live.checkAlarms();
    },
    write: scans.write,
    onDescribed(channels) {
      scans.write(() => {
        for (const burnId of time.running()) context.onChannels(burnId, channels);
      });
    },
    isNeeded: () => time.running().length > 0 || store.gaps.openBurns().length > 0,
    onDetached(boardId) {
      for (const burnId of store.gaps.openBurns()) recorder.giveUp(burnId, boardId);
    },
  });
  const watch = createRecordingWatch({
    store,
    clock,
    time,
    boards: () => bridge.boards(),
    onChanged(burnId) {
      gapNews.note(burnId);
      live.checkAlarms(burnId);
    },
  });
  const live = createLiveBurns({ store, clock, time, hub, setup, watch, ring: context.ring ?? (() => {}), onTrouble });

  bridge.on('scan', (scan) => {
    resume.byBoard(scan);
    const values = setup.read(scan);
    const burns = recorder.take(scan, values);
    if (scan.repeated || burns.length > 0) watch.stored(scan.boardKey, burns);
    if (!scan.repeated) live.scan(scan.boardKey, values, burns);
  });
  bridge.on('gap', recorder.gap);
  bridge.on('renamed', recorder.renamed);

  /** After a restart the bridge determines what is missing, and may fetch it; a reopened burn certainly has a gap. */
  function begin(burn: StoredDocument<'burn'>, how: 'new' | 'reopened' | 'restarted'): void {
    if (how === 'new') resume.begin(burn.id);
    else {
      const { lastUs, nowUs } = resume.byMachine(burn);
      if (how === 'reopened') store.gaps.add(burn.id, { fromUs: lastUs, toUs: nowUs, cause: 'serviceStopped' });
    }
    const hasReadings = how !== 'new' && store.scans.boards(burn.id).length > 0;
    recorder.begin(burn, how, hasReadings ? readCurve(store, burn.id) : []);
    watch.begin(burn.id);
    live.begin(burn);
  }

  /** The burn is no longer measured: it ended or was removed. */
  function stop(burnId: string): void {
    watch.end(burnId);
    resume.end(burnId);
    time.stop(burnId);
    live.end(burnId);
  }

  function curveOf(burnId: string): SmallCurve {
    const measured = recorder.curveOf(burnId) ?? [];
    return measured.length > 0 ? measured : storedSmallCurve(store, burnId);
  }

  return {
    setup,
    bridge,
    begin,
    /** The small curve of a burn, as far as available. */
    curveOf,
    /** The description of a burn has changed. */
    changed(burn: StoredDocument<'burn'>): void {
      recorder.use(burn);
      live.changed(burn);
    },
    /** A mark was created, changed or withdrawn. */
    marked(burnId: string, isReading: boolean): void {
      // Where no board provides the small curve, it is drawn from hand readings.
      if (isReading && (recorder.curveOf(burnId) ?? []).length === 0) {
        scans.write(() => saveSmallCurve(store, burnId, readCurve(store, burnId)));
      }
      live.marked(burnId);
    },
    end({ id, body }: StoredDocument<'burn'>): void {
      const curve = curveOf(id);
      scans.write(() => saveSmallCurve(store, id, curve));
      stop(id);
      recorder.end(id, body.endedElapsedUs ?? 0, (boardId) => silenceCause(bridge, boardId));
      repairs.ended(id);
      try {
        store.checkpoint();
      } catch (error) {
        // The burn has ended all the same; its log is truncated another time.
        onTrouble(error);
      }
    },
    forget(burnId: string): void {
      scans.forget(burnId);
      stop(burnId);
      recorder.forget(burnId);
    },
    /** The part of the live stream's snapshot that is available here. */
    snapshot: (): Pick<Extract<LiveEvent, { type: 'snapshot' }>, 'boards' | 'handProbes' | 'storage' | 'calls'> => ({
      boards: setup.boards(),
      handProbes: setup.handProbes.list(),
      storage: scans.state(),
      calls: live.alarms(),
    }),
    /** Resumes what ran when the service stopped: burns and boards. */
    resume(): void {
      const running = store.documents.unfinishedBurns().filter(({ body }) => body.status === 'running');
      for (const burn of running) begin(burn, 'restarted');
      const isRepairing = repairs.resume();
      setup.restore(running.length > 0 || isRepairing);
    },
    async close(): Promise<void> {
      live.close();
      watch.close();
      setup.close();
      await bridge.close();
      scans.close();
      repairs.close();
      gapNews.close();
    },
  };
}

/** Some for each point of the curve. */
const ROWS_OF_CURVE = 400;

function readCurve(store: Store, burnId: string): SmallCurve {
  const record = recordWithoutReadings(store, burnId);
  const curve = createGrowingCurve();
  for (const { elapsedUs, values } of waterScans(store, record, ROWS_OF_CURVE, 0)) {
    curve.add(elapsedUs / 1e6, waterOf(record.channels, { values, faults: {} }) ?? Number.NaN);
  }
  const points = curve.points();
  // Without a water probe on a board, the curve consists of readings by hand.
  return points.length > 0 ? points : smallCurve(assembleRecord(record, []));
}

/** Why a board may have sent nothing at the end of a burn. */
function silenceCause(bridge: Bridge, boardId: string): NewGap['cause'] {
  const board = bridge.boards().find(({ boardKey }) => boardKey === boardId);
  if (!board || board.state === 'lost' || board.state === 'searching') return 'unplugged';
  return board.state === 'silent' ? 'silent' : 'lost';
}

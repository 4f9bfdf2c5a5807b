import type { Estimate, LiveEvent } from '../../shared/contract/api.ts';
import { newId } from '../base/identifiers.ts';
import type { LabelClock } from '../base/label-clock.ts';
import { type Bridge, createBridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import { type SmallCurve, saveSmallCurve, smallCurve, storedSmallCurve } from '../curves/small-curve.ts';
import type { Hub } from '../live/hub.ts';
import { createScanFeed } from '../live/scan-feed.ts';
import { createAlarms } from '../recording/alarms.ts';
import { type BurnClock, createBurnClock } from '../recording/burn-clock.ts';
import { createGapNews, openGaps } from '../recording/gap-news.ts';
import { createLiveEstimates } from '../recording/live-estimates.ts';
import { createRecorder } from '../recording/recorder.ts';
import { createRecordingWatch } from '../recording/recording-watch.ts';
import { createRepairs } from '../recording/repairs.ts';
import { createResume } from '../recording/resume.ts';
import { createScanWriter } from '../recording/scan-writer.ts';
import { createTicker } from '../recording/ticker.ts';
import { readBoards } from '../records/board-readings.ts';
import { assembleRecord } from '../records/burn-record.ts';
import { draftRecord } from '../records/record-draft.ts';
import { findBurn } from '../records/versioned.ts';
import { createAnalyst } from '../results/analyst.ts';
import { createResults, type Results } from '../results/results.ts';
import type { Setup } from '../setup/setup.ts';
import { createSetup } from '../setup/setup.ts';
import type { Store, StoredDocument } from '../store/store.ts';
import { createEntries, type Entries } from './entries.ts';
import { exclusionRules, markRules, weighingRules } from './entry-rules.ts';
import { createLifecycle, type Lifecycle } from './lifecycle.ts';
import { createSummaries, type Summaries } from './summaries.ts';
import { createWeighUp, type SaveWeighUp } from './weigh-up.ts';

export interface BurnsContext {
  store: Store;
  clock: LabelClock;
  hub: Hub;
  ports: PortFactory;
  onTrouble(error: unknown): void;
  /** Scans that may wait in memory while the disk takes none. */
  mostWaitingScans?: number | undefined;
  /** Sounds the bench machine. */
  ring?: (() => void) | undefined;
}

/** Where the bench, the store and the burns meet. */
export interface Burns {
  setup: Setup;
  bridge: Bridge;
  time: BurnClock;
  lifecycle: Lifecycle;
  summaries: Summaries;
  results: Results;
  marks: Entries<'mark'>;
  weighings: Entries<'weighing'>;
  exclusions: Entries<'exclusion'>;
  weighUp: SaveWeighUp;
  snapshot(): LiveEvent;
  /** Tells whoever follows that a burn came or changed in a way of its own: it was brought in. */
  announce(burnId: string): void;
  /** Goes on with what ran when the service stopped: burns and boards. */
  resume(): void;
  close(): Promise<void>;
}

export function createBurns(context: BurnsContext): Burns {
  const { store, clock, hub } = context;
  const time = createBurnClock(clock);
  const { onTrouble } = context;
  const scans = createScanWriter({
    store,
    clock,
    hub,
    onTrouble,
    onGaps: (burnId) => gapNews.note(burnId),
    mostWaiting: context.mostWaitingScans,
  });
  const recorder = createRecorder({ store, time, scans, onGaps: (burnId) => gapNews.note(burnId) });
  const repairs = createRepairs({ store, clock, write: scans.write, giveUp: recorder.giveUp, onOver });
  const gapNews = createGapNews(clock, (burnId) => {
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
  const feed = createScanFeed(hub);
  const analyst = createAnalyst();
  const estimates = createLiveEstimates(store);
  const summaries = createSummaries(store, time, curveOf);
  const entries = { store, time, hub };

  function curveOf(burnId: string): SmallCurve {
    const measured = recorder.curveOf(burnId) ?? [];
    return measured.length > 0 ? measured : storedSmallCurve(store, burnId);
  }

  function readCurve(burnId: string): SmallCurve {
    return smallCurve(assembleRecord(draftRecord(store, burnId), readBoards(store, burnId)));
  }

  /** After a restart the bridge finds out what is missing, and perhaps fetches it; a burn reopened has a gap for sure. */
  function begin(burn: StoredDocument<'burn'>, how: 'new' | 'reopened' | 'restarted'): void {
    if (how === 'new') resume.begin(burn.id);
    else {
      const { lastUs, nowUs } = resume.byMachine(burn);
      if (how === 'reopened') store.gaps.add(burn.id, { fromUs: lastUs, toUs: nowUs, cause: 'serviceStopped' });
    }
    recorder.begin(burn, how, how === 'new' || store.scans.boards(burn.id).length === 0 ? [] : readCurve(burn.id));
    watch.begin(burn.id);
    estimates.begin(burn.id);
    followByHand(burn);
  }

  function followByHand({ id, body }: StoredDocument<'burn'>): void {
    ticker.follow(id, time.isRunning(id) && body.channels.some(({ handRead }) => handRead));
  }

  /** What a burn has come to, told to those who watch it and to whoever calls the person. */
  function tell(estimate: Estimate | undefined): void {
    if (!estimate) return;
    feed.offer({ type: 'estimate', estimate });
    alarms.estimated(estimate);
  }

  const ticker = createTicker(clock, (burnId) => tell(estimates.pass(burnId, time.now(burnId) ?? 0)));

  /** The readings of an ended burn are complete, or as complete as they will be. */
  function onOver(burnId: string): void {
    saveSmallCurve(store, burnId, readCurve(burnId));
    results.prepare(burnId);
    hub.publish({ type: 'burn', burn: summaries.of(findBurn(store, burnId)) });
  }

  /** Why a board may have said nothing at the end of a burn. */
  function silenceOf(boardId: string): 'lost' | 'silent' | 'unplugged' {
    const board = bridge.boards().find(({ boardKey }) => boardKey === boardId);
    if (!board || board.state === 'lost' || board.state === 'searching') return 'unplugged';
    return board.state === 'silent' ? 'silent' : 'lost';
  }

  /** Where no board draws the small curve, the readings of the person do. */
  function readByHand(burnId: string): void {
    if ((recorder.curveOf(burnId) ?? []).length > 0) return;
    scans.write(() => saveSmallCurve(store, burnId, readCurve(burnId)));
  }

  const setup = createSetup({
    store,
    clock,
    bridge,
    ports: context.ports,
    publish: hub.publish,
    write: scans.write,
    onDescribed(channels) {
      scans.write(() => {
        for (const burnId of time.running()) lifecycle.addChannels(burnId, channels);
      });
    },
    isNeeded: () => time.running().length > 0 || store.gaps.openBurns().length > 0,
    onDetached(boardId) {
      for (const burnId of store.gaps.openBurns()) recorder.giveUp(burnId, boardId);
    },
  });

  const watch = createRecordingWatch({ store, clock, time, boards: () => bridge.boards(), onChanged: lookAgain });
  const alarms = createAlarms({ store, clock, time, hub, bench: setup, watch, ring: context.ring ?? (() => {}) });

  function lookAgain(burnId: string): void {
    gapNews.note(burnId);
    alarms.look(burnId);
  }

  const results = createResults(store, analyst);
  const lifecycle = createLifecycle({
    store,
    clock,
    time,
    setup,
    onStarted: (burn, again) => begin(burn, again ? 'reopened' : 'new'),
    onStopped({ id, body }) {
      const curve = curveOf(id);
      scans.write(() => saveSmallCurve(store, id, curve));
      watch.end(id);
      resume.end(id);
      time.stop(id);
      ticker.follow(id, false);
      recorder.end(id, body.endedElapsedUs ?? 0, silenceOf);
      repairs.ended(id);
      estimates.end(id);
      alarms.end(id);
      try {
        store.settle();
      } catch (error) {
        // The burn has ended all the same, and its log is cut back another time.
        onTrouble(error);
      }
    },
    onChanged(burn) {
      if (burn.body.status === 'ended') results.prepare(burn.id);
      recorder.use(burn);
      estimates.changed(burn.id);
      followByHand(burn);
      hub.publish({ type: 'burn', burn: summaries.of(burn) });
    },
    onRemoved(burnId) {
      scans.forget(burnId);
      time.stop(burnId);
      ticker.follow(burnId, false);
      watch.end(burnId);
      resume.end(burnId);
      recorder.forget(burnId);
      estimates.end(burnId);
      alarms.end(burnId);
      hub.publish({ type: 'burnGone', burnId });
    },
  });

  bridge.on('scan', (scan) => {
    resume.byBoard(scan);
    const values = setup.read(scan);
    const burns = recorder.take(scan, values);
    if (scan.repeated || burns.length > 0) watch.stored(scan.boardKey, burns);
    if (scan.repeated) return;
    const event = { type: 'scan' as const, boardId: scan.boardKey, ...values };
    if (burns.length === 0) feed.offer(event);
    for (const burn of burns) {
      feed.offer({ ...event, ...burn });
      tell(estimates.scan(burn.burnId, { elapsedUs: burn.elapsedUs, values: values.values }));
    }
  });
  bridge.on('gap', recorder.gap);
  bridge.on('renamed', recorder.renamed);
  hub.subscribe(({ event }) => {
    if (event.type !== 'mark') return;
    // In a turn of its own: told from within the telling of the mark, it would overtake it.
    queueMicrotask(() => {
      const { burnId, mark } = event;
      if (mark.mark.kind === 'reading') readByHand(burnId);
      const marked = estimates.marked(burnId);
      const estimate = ticker.follows(burnId) ? estimates.pass(burnId, time.now(burnId) ?? 0) : marked;
      tell(estimate);
      if (ticker.follows(burnId)) alarms.look(burnId);
    });
  });

  return {
    setup,
    bridge,
    time,
    lifecycle,
    summaries,
    results,
    marks: createEntries(store, markRules(entries)),
    weighings: createEntries(store, weighingRules(entries)),
    exclusions: createEntries(store, exclusionRules(entries)),
    weighUp: createWeighUp({ ...entries, life: lifecycle }),
    announce(burnId) {
      results.prepare(burnId);
      hub.publish({ type: 'burn', burn: summaries.of(findBurn(store, burnId)) });
    },
    snapshot: () => ({
      type: 'snapshot',
      epoch: hub.epoch,
      serviceUtcMs: clock.wallMs(),
      boards: setup.boards(),
      handProbes: setup.handProbes.list(),
      burns: summaries.list(),
      storage: scans.state(),
      calls: alarms.list(),
    }),
    resume() {
      const running = store.documents.list('burn').filter(({ body }) => body.status === 'running');
      for (const burn of running) begin(burn, 'restarted');
      const isRepairing = repairs.resume();
      setup.restore(running.length > 0 || isRepairing);
    },
    async close() {
      feed.close();
      ticker.close();
      watch.close();
      setup.close();
      await bridge.close();
      scans.close();
      repairs.close();
      gapNews.close();
      await analyst.close();
    },
  };
}

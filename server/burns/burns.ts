import type { Estimate, LiveEvent } from '../../shared/contract/api.ts';
import type { Bench } from '../bench/bench.ts';
import { createBench } from '../bench/bench.ts';
import { type Bridge, createBridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import { newId } from '../identifiers.ts';
import type { LabelClock } from '../label-clock.ts';
import type { Hub } from '../live/hub.ts';
import { createScanFeed } from '../live/scan-feed.ts';
import type { KeptDocument, Store } from '../store/store.ts';
import { createAnalyst } from './analyst.ts';
import { type Answers, createAnswers } from './answers.ts';
import { createBeat } from './beat.ts';
import { readBoards } from './board-readings.ts';
import { assembleRecord } from './burn-record.ts';
import { type BurnTime, createBurnTime } from './burn-time.ts';
import { createCalls } from './calls.ts';
import { createEntries, type Entries } from './entries.ts';
import { exclusionRules, markRules, weighingRules } from './entry-rules.ts';
import { createEstimates } from './estimates.ts';
import { findBurn } from './kept.ts';
import { createLife, type Life } from './life.ts';
import { draftRecord } from './record-draft.ts';
import { createRecorder } from './recorder.ts';
import { createResume } from './resume.ts';
import { createScanKeeper } from './scan-keeper.ts';
import { smallCurve } from './small-curve.ts';
import { keepSmallCurve, keptSmallCurve } from './small-curves.ts';
import { createSummaries, type SmallCurve, type Summaries } from './summaries.ts';
import { createWeighUp, type KeepWeighUp } from './weigh-up.ts';

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
  bench: Bench;
  bridge: Bridge;
  time: BurnTime;
  life: Life;
  summaries: Summaries;
  answers: Answers;
  marks: Entries<'mark'>;
  weighings: Entries<'weighing'>;
  exclusions: Entries<'exclusion'>;
  weighUp: KeepWeighUp;
  snapshot(): LiveEvent;
  /** Tells whoever follows that a burn came or changed in a way of its own: it was brought in. */
  announce(burnId: string): void;
  /** Goes on with what ran when the service stopped: burns and boards. */
  resume(): void;
  close(): Promise<void>;
}

export function createBurns(context: BurnsContext): Burns {
  const { store, clock, hub } = context;
  const time = createBurnTime(clock);
  const { onTrouble } = context;
  const scans = createScanKeeper({ store, clock, hub, onTrouble, mostWaiting: context.mostWaitingScans });
  const recorder = createRecorder({ store, time, hub, scans, onTrouble });
  const resume = createResume(store, clock, time);
  const bridge = createBridge({
    clock,
    ports: context.ports,
    newId: () => newId(clock.wallMs()),
    lastScanOf: recorder.lastScanOf,
  });
  const feed = createScanFeed(hub);
  const analyst = createAnalyst();
  const estimates = createEstimates(store);
  const summaries = createSummaries(store, time, curveOf);
  const entries = { store, time, hub };

  function curveOf(burnId: string): SmallCurve {
    const measured = recorder.curveOf(burnId) ?? [];
    return measured.length > 0 ? measured : keptSmallCurve(store, burnId);
  }

  function readCurve(burnId: string): SmallCurve {
    return smallCurve(assembleRecord(draftRecord(store, burnId), readBoards(store, burnId)));
  }

  /** After a restart the bridge finds out what is missing, and perhaps fetches it; a burn reopened has a gap for sure. */
  function begin(burn: KeptDocument<'burn'>, how: 'new' | 'reopened' | 'restarted'): void {
    if (how === 'new') time.start(burn.id, clock.monotonicUs());
    else {
      const { lastUs, nowUs } = resume.byWall(burn);
      if (how === 'reopened') store.gaps.add(burn.id, { fromUs: lastUs, toUs: nowUs, cause: 'serviceStopped' });
    }
    recorder.begin(burn, how === 'new' || store.scans.boards(burn.id).length === 0 ? [] : readCurve(burn.id));
    estimates.begin(burn.id);
    followByHand(burn);
  }

  function followByHand({ id, body }: KeptDocument<'burn'>): void {
    beat.follow(id, time.isRunning(id) && body.channels.some(({ handRead }) => handRead));
  }

  /** What a burn has come to, told to those who watch it and to whoever calls the person. */
  function tell(estimate: Estimate | undefined): void {
    if (!estimate) return;
    feed.offer({ type: 'estimate', estimate });
    calls.estimated(estimate);
  }

  const beat = createBeat(clock, (burnId) => tell(estimates.pass(burnId, time.now(burnId) ?? 0)));

  /** Where no board draws the small curve, the readings of the person do. */
  function readByHand(burnId: string): void {
    if ((recorder.curveOf(burnId) ?? []).length === 0) keepSmallCurve(store, burnId, readCurve(burnId));
  }

  const bench = createBench({
    store,
    clock,
    bridge,
    ports: context.ports,
    publish: hub.publish,
    onDescribed(channels) {
      for (const burnId of time.running()) life.addChannels(burnId, channels);
    },
  });

  const calls = createCalls({ store, clock, time, hub, bench, ring: context.ring ?? (() => {}) });

  const answers = createAnswers(store, analyst);
  const life = createLife({
    store,
    clock,
    time,
    rig: bench,
    onStarted: (burn, again) => begin(burn, again ? 'reopened' : 'new'),
    onStopped({ id }) {
      keepSmallCurve(store, id, curveOf(id));
      time.stop(id);
      beat.follow(id, false);
      recorder.end(id);
      estimates.end(id);
      calls.end(id);
      store.settle();
    },
    onChanged(burn) {
      if (burn.body.status === 'ended') answers.prepare(burn.id);
      recorder.use(burn);
      estimates.changed(burn.id);
      followByHand(burn);
      hub.publish({ type: 'burn', burn: summaries.of(burn) });
    },
    onRemoved(burnId) {
      scans.forget(burnId);
      time.stop(burnId);
      beat.follow(burnId, false);
      recorder.end(burnId);
      estimates.end(burnId);
      calls.end(burnId);
      hub.publish({ type: 'burnGone', burnId });
    },
  });

  bridge.on('scan', (scan) => {
    resume.byBoard(scan);
    const values = bench.read(scan);
    const burns = recorder.take(scan, values);
    if (scan.repeated) return;
    const event = { type: 'scan' as const, boardId: scan.boardKey, ...values };
    if (burns.length === 0) feed.offer(event);
    for (const burn of burns) {
      feed.offer({ ...event, ...burn });
      tell(estimates.scan(burn.burnId, { elapsedUs: burn.elapsedUs, values: values.values }));
    }
  });
  bridge.on('gap', recorder.gap);
  hub.subscribe(({ event }) => {
    if (event.type !== 'mark') return;
    // In a turn of its own: told from within the telling of the mark, it would overtake it.
    queueMicrotask(() => {
      const { burnId, mark } = event;
      if (mark.mark.kind === 'reading') readByHand(burnId);
      const marked = estimates.marked(burnId);
      const estimate = beat.follows(burnId) ? estimates.pass(burnId, time.now(burnId) ?? 0) : marked;
      tell(estimate);
      if (beat.follows(burnId)) calls.look(burnId);
    });
  });

  return {
    bench,
    bridge,
    time,
    life,
    summaries,
    answers,
    marks: createEntries(store, markRules(entries)),
    weighings: createEntries(store, weighingRules(entries)),
    exclusions: createEntries(store, exclusionRules(entries)),
    weighUp: createWeighUp({ ...entries, life }),
    announce(burnId) {
      answers.prepare(burnId);
      hub.publish({ type: 'burn', burn: summaries.of(findBurn(store, burnId)) });
    },
    snapshot: () => ({
      type: 'snapshot',
      epoch: hub.epoch,
      serviceUtcMs: clock.wallMs(),
      boards: bench.boards(),
      handProbes: bench.handProbes.list(),
      burns: summaries.list(),
      storage: scans.state(),
      calls: calls.list(),
    }),
    resume() {
      const running = store.documents.list('burn').filter(({ body }) => body.status === 'running');
      for (const burn of running) begin(burn, 'restarted');
      bench.restore(running.length > 0);
    },
    async close() {
      feed.close();
      beat.close();
      await bridge.close();
      scans.close();
      await analyst.close();
    },
  };
}

import type { DiskChange } from '../../shared/contract/burns.ts';
import type { LiveEvent } from '../../shared/contract/stream.ts';
import type { WallClock } from '../base/wall-clock.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { Hub } from '../live/hub.ts';
import { createBurnClock } from '../recording/burn-clock.ts';
import { createRecording } from '../recording/recording.ts';
import { findBurn } from '../records/versioned-documents.ts';
import { createAnalyst } from '../results/analyst.ts';
import { createResults } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import type { Worker } from '../worker/worker.ts';
import { createEntries } from './entries.ts';
import { exclusionRules, markRules, weighingRules } from './entry-rules.ts';
import { createLifecycle } from './lifecycle.ts';
import { createSummaries } from './summaries.ts';
import { createWeighUp } from './weigh-up.ts';

export interface BurnsContext {
  store: Store;
  clock: WallClock;
  hub: Hub;
  worker: Worker;
  ports: PortFactory;
  onTrouble(error: unknown): void;
  /** Scans that may wait in memory while the disk accepts none. */
  mostWaitingScans?: number | undefined;
  /** Plays the alarm sound on the bench machine. */
  ring?: (() => void) | undefined;
  /** Data of a burn that changed on the disk, as far as known. */
  changesOf(burnId: string): DiskChange[] | undefined;
}

/** What a person does with burns, connected to their recording and results. */
export type Burns = ReturnType<typeof createBurns>;

export function createBurns(context: BurnsContext) {
  const { store, clock, hub, worker } = context;
  const time = createBurnClock(clock);
  const results = createResults(store, createAnalyst(worker));
  /** Of its own: whoever asks for the same curves does not wait until there is nothing else to do. */
  const inAdvance = createResults(store, createAnalyst(worker, 'idle'));
  const recording = createRecording({
    ...context,
    time,
    onChannels: (burnId, channels) => lifecycle.addChannels(burnId, channels),
    onComplete: announce,
  });
  const { setup, bridge } = recording;
  const summaries = createSummaries(store, time, recording.curveOf, context.changesOf);

  function announce(burnId: string): void {
    void inAdvance.prepare(burnId);
    hub.publish({ type: 'burn', burn: summaries.of(findBurn(store, burnId)) });
  }

  const lifecycle = createLifecycle({
    store,
    clock,
    time,
    setup,
    onStarted: (burn, again) => recording.begin(burn, again ? 'reopened' : 'new'),
    onStopped: recording.end,
    onChanged(burn) {
      if (burn.body.status === 'ended') void inAdvance.prepare(burn.id);
      recording.changed(burn);
      hub.publish({ type: 'burn', burn: summaries.of(burn) });
    },
    onRemoved(burnId) {
      recording.forget(burnId);
      hub.publish({ type: 'burnGone', burnId });
    },
  });
  const entries = { store, time, hub, onMark: recording.marked };

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
    weighUp: createWeighUp({ ...entries, lifecycle }),
    /** Publishes a burn whose readings arrived or changed without an edit: it was imported or repaired. */
    announce,
    snapshot: (): LiveEvent => ({
      type: 'snapshot',
      epoch: hub.epoch,
      serviceUtcMs: clock.wallMs(),
      burns: summaries.list(),
      ...recording.snapshot(),
    }),
    /** Resumes what ran when the service stopped: burns and boards. */
    resume: recording.resume,
    close: recording.close,
  };
}

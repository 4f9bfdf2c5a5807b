/** Publishes the finished burns of this bench into a folder, one run at a time, while the service keeps running. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import type { Bench } from '../../shared/contract/bench.ts';
import type { Publication as PublicationSeen } from '../../shared/contract/publication.ts';
import type { DatasetRow } from '../../shared/dataset/row.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { reasonOf } from '../base/reason-of.ts';
import { benchIdentity, publishFolder, rememberPublishFolder } from '../identity/bench-identity.ts';
import type { ShownWork, WorkUnderWay } from '../live/work-under-way.ts';
import { type RecordWithoutReadings, recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import type { DatasetWork } from './dataset-work.ts';
import type { SmallTableName, Step, WantedBurn } from './plan.ts';
import { smallRows } from './small-rows.ts';
import { isFinished, wantedBurn } from './wanted-burn.ts';

/** The method set with which every burn is published, so that burns of all benches can be compared. */
const COMMON_METHOD = 'bench-1';

/** Progress of a publication, for any client. */
type Publication = Omit<PublicationSeen, 'mayChoose'>;

export interface PublisherContext {
  store: Store;
  results: Pick<Results, 'analysis'>;
  clock: Clock;
  work: DatasetWork;
  workUnderWay: Pick<WorkUnderWay, 'begin'>;
  /** Of the software. */
  version: string;
}

export type Publisher = ReturnType<typeof createPublisher>;

const nothingYet = { doneFiles: 0, totalFiles: 0, burns: 0, unfinished: 0, elsewhere: 0 };

export function createPublisher({ store, results, clock, work, workUnderWay, version }: PublisherContext) {
  let state: Publication | undefined;
  let running: Promise<void> | undefined;
  const closing = new AbortController();
  const createdBy = `Stovebench ${version}`;

  async function publish(folder: string, bench: Bench, { signal, onProgress }: ShownWork): Promise<void> {
    const burns = store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
    const wanted: WantedBurn[] = [];
    for (const burn of burns) {
      if (isFinished(store, burn)) wanted.push(wantedBurn(store, recordWithoutReadings(store, burn.id), bench.name));
      await nextTurn();
      signal.throwIfAborted();
    }
    const { steps, elsewhere } = await work.plan({ kind: 'plan', folder, bench: bench.id, burns: wanted }, signal);
    const counts = {
      totalFiles: steps.length,
      burns: wanted.length - elsewhere.length,
      unfinished: burns.length - wanted.length,
      elsewhere: elsewhere.length,
    };
    for (const [doneFiles, step] of steps.entries()) {
      state = { ...counts, phase: 'publishing', folder, doneFiles };
      onProgress(doneFiles, steps.length);
      await take(step, bench, signal);
    }
    state = { ...counts, phase: 'done', folder, doneFiles: steps.length };
  }

  async function take(step: Step, bench: Bench, signal: AbortSignal): Promise<void> {
    signal.throwIfAborted();
    const { path } = step;
    if (step.kind === 'remove') return work.write(store.folder, { kind: 'remove', path }, signal);
    if (step.kind === 'rows') return writeRows(path, step.table, step.burns, bench, signal);
    const record = recordIfThere(step.burn.id);
    if (!record) return;
    // Of the data being written, not of the plan: the burn may have been corrected in between.
    const { readingsSource = '' } = wantedBurn(store, record, bench.name);
    const written = { methodVersion: METHOD_VERSION, burns: { [record.id]: readingsSource } };
    return work.write(store.folder, { kind: 'readings', path, state: written, createdBy, record }, signal);
  }

  async function writeRows(
    path: string,
    table: SmallTableName,
    burns: WantedBurn[],
    bench: Bench,
    signal: AbortSignal,
  ): Promise<void> {
    const written: Record<string, string> = {};
    const rows: DatasetRow[] = [];
    for (const { id } of burns.toSorted((a, b) => (a.id < b.id ? -1 : 1))) {
      const record = recordIfThere(id);
      if (!record) continue;
      written[id] = wantedBurn(store, record, bench.name).source;
      const analyses = table === 'results' ? await analysesOf(record, signal) : [];
      rows.push(...smallRows[table]({ record, analyses, benchName: bench.name }));
      await nextTurn();
      signal.throwIfAborted();
    }
    const state = { methodVersion: METHOD_VERSION, burns: written };
    return work.write(store.folder, { kind: 'rows', path, table, state, createdBy, rows }, signal);
  }

  /** Nothing half written stays; what cannot be removed now, the next run removes. */
  const clear = (folder: string, bench: Bench) =>
    work
      .write(store.folder, { kind: 'clear', folder, bench: bench.id }, new AbortController().signal)
      .catch(() => undefined);

  const analysesOf = ({ id, methodSet }: RecordWithoutReadings, signal: AbortSignal) =>
    Promise.all(
      [...new Set([COMMON_METHOD, methodSet] as const)].map((method) => results.analysis(id, method, signal)),
    );

  /** Undefined for a burn that was removed since the plan was made: the next run removes its rows. */
  function recordIfThere(id: string): RecordWithoutReadings | undefined {
    return store.documents.get('burn', id) && recordWithoutReadings(store, id);
  }

  return {
    /**
     * Begins to publish.
     * @param chosen the folder of the last publication when omitted, else one in the data folder
     * @param workId identifier for cancelling it, chosen by the client
     * @throws AppError dataset/busy, bench/unreadable
     */
    begin(chosen?: string, workId?: string): Publication {
      if (running) throw new AppError('dataset/busy');
      const nowMs = clock.wallMs();
      const bench = benchIdentity(store.folder, nowMs);
      const folder = chosen ?? publishFolder(store.folder, nowMs);
      state = { ...nothingYet, phase: 'publishing', folder };
      const shown = workUnderWay.begin('publishing', { id: workId, gone: closing.signal });
      running = publish(folder, bench, shown)
        .then(() => rememberPublishFolder(store.folder, nowMs, folder))
        .catch(async (error: unknown) => {
          if (shown.signal.aborted) await clear(folder, bench);
          const { doneFiles, totalFiles } = state!;
          const cancelled = new AppError('dataset/cancelled', { done: doneFiles, of: totalFiles, folder });
          const { code, params } = shown.signal.aborted ? cancelled : refusalOf(error, folder);
          state = { ...nothingYet, ...state, phase: 'failed', folder, problem: { code, params } };
        })
        .finally(() => {
          shown.end();
          running = undefined;
        });
      return state;
    },
    /** The progress, and how the last run ended. */
    state: (): Publication =>
      state ?? { ...nothingYet, phase: 'idle', folder: publishFolder(store.folder, clock.wallMs()) },
    /** Resolves when no publication is running any more, whatever its outcome. */
    idle: async (): Promise<void> => running,
    /** Cancels a running publication and resolves once it has ended. Call before the worker closes. */
    async close(): Promise<void> {
      closing.abort();
      await running;
    },
  };
}

const FULL = /^(ENOSPC|EDQUOT)$/;

/** Why a run ended early, as an error for a person. */
function refusalOf(error: unknown, folder: string): AppError {
  if (isAppError(error)) return error;
  const { code = '' } = error as NodeJS.ErrnoException;
  if (FULL.test(code)) return new AppError('dataset/full', { folder });
  if (/^E[A-Z]+$/.test(code)) return new AppError('dataset/folder-not-writable', { folder, raw: reasonOf(error) });
  return new AppError('dataset/interrupted', { folder, raw: reasonOf(error) });
}

/** Bringing data in, step by step: the file, a look at it, how it is to be read, what is to be kept. */
import type { ImportOutcome, ImportPreview, SaveImport } from '../../shared/contract/imports.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { ShownWork } from '../live/work-under-way.ts';
import type { IncomingBurns, ScanPage } from '../records/incoming-burns.ts';
import type { Store } from '../store/store.ts';
import type { Worker } from '../worker/worker.ts';
import { addToBurn } from './add-to-burn.ts';
import { lookJob, type ReadHead, type ReadInput, readJob } from './import-jobs.ts';
import { merge } from './merge.ts';
import { planMerge } from './merge-plan.ts';
import type { Correction } from './open-file.ts';
import { DamagedFile, openPacked, type PackedFile } from './packed-file.ts';
import type { SentFile, StagedFile, StagedFiles } from './staged-files.ts';

export type Imports = ReturnType<typeof createImports>;

export interface ImportsContext {
  store: Store;
  clock: Clock;
  worker: Worker;
  staged: StagedFiles;
  /** Of the machine, for files that tell local time. */
  zone: string;
  /** Called for every burn that came or changed. */
  onChanged(burnId: string): void;
}

export function createImports({ store, clock, worker, staged, zone, onChanged }: ImportsContext) {
  const makeId = () => newId(clock.wallMs());

  /** What a table or notes that wait were last seen to be, so that keeping them need not guess again. */
  const seen = new Map<string, { correction: Correction; durationS: number }>();

  async function look(file: StagedFile, correction: Correction | undefined, work: ShownWork): Promise<ImportPreview> {
    const opened = await worker.do(lookJob, { ...where(file), correction }, work);
    const named = { id: file.id, file: file.file };
    switch (opened.kind) {
      case 'burns':
        return { ...named, ...opened };
      case 'columns': {
        const { columns } = opened;
        seen.set(file.id, { correction: { columns: columns.format }, durationS: columns.durationS });
        return { ...named, kind: 'columns', columns };
      }
      case 'notes': {
        const { notes } = opened;
        const durationS = notes.lines.at(-1)?.elapsedS ?? 0;
        seen.set(file.id, { correction: { notes: notes.format }, durationS });
        return { ...named, kind: 'notes', notes };
      }
    }
  }

  const where = ({ path, file, as }: StagedFile) => ({ folder: store.folder, path, file, as });

  function howToRead(file: StagedFile, how: SaveImport): ReadInput {
    const last = seen.get(file.id);
    const given = how.columns || how.notes ? { columns: how.columns, notes: how.notes } : undefined;
    const burn = last && {
      target: how.target,
      hold: how.hold,
      litElapsedS: how.litElapsedS,
      title: how.title ?? file.file.replace(/\.[a-z]{2,4}$/i, '').slice(0, 120),
      startedUtcMs: how.startedUtcMs ?? Math.round(clock.wallMs() - last.durationS * 1000),
      zone,
    };
    return { ...where(file), correction: last && (given ?? last.correction), burn, into: how.into };
  }

  /** Imports that run, by the file that they save. */
  const saving = new Map<string, AbortController>();

  function drop(id: string): void {
    saving.get(id)?.abort(new AppError('worker/cancelled'));
    seen.delete(id);
    staged.drop(id);
  }

  async function saveAll(file: StagedFile, how: SaveImport, work: ShownWork): Promise<ImportOutcome> {
    const input = howToRead(file, how);
    const saved = input.burn ? undefined : await savePacked(file, how, work);
    if (saved) return saved;
    const { head, pieces } = await worker.stream(readJob, input, work);
    try {
      return await saveBurns({ ...head, pages: untilSaved(pieces, head.scans, work) }, input, how);
    } finally {
      pieces.destroy();
    }
  }

  /** @returns undefined when the file has to be read for it: it is not packed, or a burn exists by now and has to be compared */
  async function savePacked(file: StagedFile, how: SaveImport, work: ShownWork) {
    let packed: PackedFile | undefined;
    try {
      packed = await openPacked(file.path);
      if (!packed) return undefined;
      const { burns, pages, scans } = packed;
      if (burns.some(({ record }) => store.documents.get('burn', record.id))) return undefined;
      const items = await planMerge(
        store,
        burns.map(({ record }) => ({ record, boards: [] })),
      );
      return await merge(store, { burns, items, scans, pages: untilSaved(pages, scans, work) }, mergeOptions(how));
    } catch (error) {
      if (error instanceof DamagedFile) return undefined;
      throw error;
    } finally {
      await packed?.close();
    }
  }

  const mergeOptions = ({ decisions = [], otherwise, by }: SaveImport) => ({
    decisions,
    otherwise,
    by,
    newId: makeId,
  });

  async function saveBurns(read: ReadHead & IncomingBurns, { burn }: ReadInput, how: SaveImport) {
    const { into, atElapsedS, by } = how;
    if (burn && into !== undefined) return addToBurn(store, into, read, { atElapsedS, by, newId: makeId });
    const there = burn && store.documents.get('burn', read.burns[0]!.record.id);
    if (there)
      return { burns: [{ id: there.id, title: there.body.title, state: 'same' as const }], created: [], changed: [] };
    return merge(store, read, mergeOptions(how));
  }

  return {
    /** @throws AppError import/... when it is nothing that can be brought in; then it does not wait */
    async receive(sent: SentFile, work: ShownWork): Promise<ImportPreview> {
      const file = await staged.stage(sent, work);
      try {
        work.turnTo('reading');
        return await look(file, undefined, work);
      } catch (error) {
        staged.drop(file.id);
        throw error;
      }
    },
    /** Another look, at the file read as the person says. */
    correct: async (id: string, correction: Correction, work: ShownWork): Promise<ImportPreview> =>
      look(staged.get(id), correction, work),
    /** All of it or nothing; the file waits no longer once it is in. */
    async save(id: string, how: SaveImport, work: ShownWork): Promise<ImportOutcome> {
      const file = staged.get(id);
      const drops = new AbortController();
      saving.set(id, drops);
      const signal = AbortSignal.any([work.signal, drops.signal]);
      const outcome = await saveAll(file, how, { ...work, signal }).finally(() => saving.delete(id));
      drop(id);
      for (const burn of outcome.burns) if (burn.state !== 'same') onChanged(burn.id);
      return outcome;
    },
    /** Forgets a file; an import of it that runs is cancelled. */
    drop,
  };
}

/**
 * Reports the progress of saving. An import cannot be cancelled any more once its last page is saved.
 * @throws AppError worker/cancelled
 */
async function* untilSaved(pages: IncomingBurns['pages'], of: number, work: ShownWork): AsyncGenerator<ScanPage> {
  let done = 0;
  for await (const page of pages) {
    work.signal.throwIfAborted();
    yield page;
    done += 'block' in page ? page.block.scans : page.columns.elapsedUs.length;
    work.onProgress(done, of);
  }
  work.signal.throwIfAborted();
  work.end();
}

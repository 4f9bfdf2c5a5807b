/** Bringing data in, step by step: the file, a look at it, how it is to be read, what is to be kept. */
import type { Readable } from 'node:stream';
import type { ImportOutcome, ImportPreview, SaveImport } from '../../shared/contract/imports.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { RecordParts } from '../records/split-record.ts';
import type { Store } from '../store/store.ts';
import { addToBurn } from './add-to-burn.ts';
import { merge } from './merge.ts';
import { planMerge } from './merge-plan.ts';
import type { Correction } from './open-file.ts';
import { readInThread } from './read-in-thread.ts';
import type { StagedFile, StagedFiles } from './staged-files.ts';

export type Imports = ReturnType<typeof createImports>;

export interface ImportsContext {
  store: Store;
  clock: Clock;
  staged: StagedFiles;
  /** Of the machine, for files that tell local time. */
  zone: string;
  /** Called for every burn that came or changed. */
  onChanged(burnId: string): void;
}

export function createImports({ store, clock, staged, zone, onChanged }: ImportsContext) {
  const makeId = () => newId(clock.wallMs());

  /** What a table or notes that wait were last seen to be, so that keeping them need not guess again. */
  const seen = new Map<string, { correction: Correction; durationS: number }>();

  async function look(file: StagedFile, correction?: Correction): Promise<ImportPreview> {
    const opened = await readInThread({ path: file.path, file: file.file, as: file.as, correction });
    const named = { id: file.id, file: file.file };
    switch (opened.kind) {
      case 'burns':
        return { ...named, kind: 'burns', items: await planMerge(store, opened.records) };
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

  /** `made` of a table or notes: such a burn has nothing of its own that could differ from what is here. */
  async function recordsOf(file: StagedFile, how: SaveImport): Promise<{ records: RecordParts[]; made: boolean }> {
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
    const correction = last && (given ?? last.correction);
    const read = await readInThread({ path: file.path, file: file.file, as: file.as, correction, burn });
    return { records: read.kind === 'burns' ? read.records : [], made: last !== undefined };
  }

  function drop(id: string): void {
    seen.delete(id);
    staged.drop(id);
  }

  async function saveAll(file: StagedFile, how: SaveImport): Promise<ImportOutcome> {
    const { records, made } = await recordsOf(file, how);
    const { into, atElapsedS, decisions, otherwise, by } = how;
    if (made && into !== undefined) return addToBurn(store, into, records[0]!, { atElapsedS, by, newId: makeId });
    const there = made && store.documents.get('burn', records[0]!.record.id);
    if (there) return { burns: [{ id: there.id, title: there.body.title, state: 'same' }], created: [], changed: [] };
    return merge(store, records, { decisions: decisions ?? [], otherwise, by, newId: makeId });
  }

  return {
    /** @throws AppError import/... when it is nothing that can be brought in; then it does not wait */
    async receive(content: Readable, name: string, as?: StagedFile['as']): Promise<ImportPreview> {
      const file = await staged.stage(content, name, as);
      try {
        return await look(file);
      } catch (error) {
        staged.drop(file.id);
        throw error;
      }
    },
    /** Another look, at the file read as the person says. */
    correct: async (id: string, correction: Correction): Promise<ImportPreview> => look(staged.get(id), correction),
    /** All of it or nothing; the file waits no longer once it is in. */
    async save(id: string, how: SaveImport): Promise<ImportOutcome> {
      const file = staged.get(id);
      const outcome = await saveAll(file, how);
      drop(id);
      for (const burn of outcome.burns) if (burn.state !== 'same') onChanged(burn.id);
      return outcome;
    },
    drop,
  };
}

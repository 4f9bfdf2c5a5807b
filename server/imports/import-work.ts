/** The reading of a file from elsewhere, in the worker process. */
import { readFileSync } from 'node:fs';
import { incomingBurns } from '../records/incoming-burns.ts';
import type { RecordParts } from '../records/split-record.ts';
import type { Store } from '../store/store.ts';
import type { JobContext } from '../worker/job.ts';
import type { Look, LookInput, ReadInput } from './import-jobs.ts';
import type { PlannedImport } from './merge.ts';
import { planMerge } from './merge-plan.ts';
import { burnOf, openFile } from './open-file.ts';
import { writePacked } from './packed-file.ts';

/** @throws AppError as `openFile` and `planMerge` */
export async function lookAt(
  store: Store,
  { path, file, as, correction }: LookInput,
  { progress }: Pick<JobContext, 'progress'>,
): Promise<Look> {
  const opened = openFile(readFileSync(path), file, as, correction);
  if (opened.kind !== 'burns') return opened;
  const items = await planMerge(store, opened.records, progress);
  const isNew = items.every(({ kind, state }) => kind !== 'burn' || state === 'new');
  if (isNew) await writePacked(path, incomingBurns(opened.records));
  return { kind: 'burns', items };
}

/**
 * The burns of a file, ready to be merged.
 * @throws AppError as `openFile`, `burnOf` and `planMerge`
 */
export async function readBurns(
  store: Store,
  { path, file, as, correction, burn, into }: ReadInput,
): Promise<PlannedImport> {
  const bytes = readFileSync(path);
  if (burn) {
    const made = burnOf(bytes, file, correction ?? {}, burn);
    // Made of a table or notes it has nothing of its own that could differ from what is here.
    const isHere = into !== undefined || store.documents.get('burn', made.record.id) !== undefined;
    return isHere ? { ...incomingBurns([made]), items: [] } : planned(store, [made]);
  }
  const opened = openFile(bytes, file, as, correction);
  return planned(store, opened.kind === 'burns' ? opened.records : []);
}

/** @throws AppError as `planMerge` */
export async function planned(store: Store, records: readonly RecordParts[]): Promise<PlannedImport> {
  return { ...incomingBurns(records), items: await planMerge(store, records) };
}

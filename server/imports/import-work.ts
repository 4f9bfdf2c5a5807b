/** The reading of a file from elsewhere, in the worker process. */
import { readFileSync } from 'node:fs';
import { AppError } from '../base/app-error.ts';
import { incomingBurns } from '../records/incoming-burns.ts';
import type { RecordParts } from '../records/split-record.ts';
import type { Store } from '../store/store.ts';
import type { JobContext } from '../worker/job.ts';
import { countLines, startOf } from './count-lines.ts';
import type { Look, LookInput, ReadInput } from './import-jobs.ts';
import type { PlannedImport } from './merge.ts';
import { planMerge } from './merge-plan.ts';
import { burnOf, isLines, openFile, TELLING_BYTES } from './open-file.ts';
import { writePacked } from './packed-file.ts';

/** Three and a half days at ten scans a second. What reading them takes is then about what is lent to the process. */
const MOST_LINES = 3_000_000;

/** @throws AppError as `openFile` and `planMerge`; import/too-many-lines */
export async function lookAt(
  store: Store,
  { path, file, as, correction }: LookInput,
  { progress }: Pick<JobContext, 'progress'>,
): Promise<Look> {
  const onLine = linesWithProgress(path, file, progress);
  const opened = openFile(readFileSync(path), file, as, correction, onLine);
  if (opened.kind !== 'burns') return opened;
  const items = await planMerge(store, opened.records, progress);
  const isNew = items.every(({ kind, state }) => kind !== 'burn' || state === 'new');
  if (isNew) await writePacked(path, incomingBurns(opened.records));
  return { kind: 'burns', items };
}

/**
 * The burns of a file, ready to be merged.
 * @throws AppError as `openFile`, `burnOf` and `planMerge`; import/too-many-lines
 */
export async function readBurns(
  store: Store,
  { path, file, as, correction, burn, into }: ReadInput,
  { progress }: Pick<JobContext, 'progress'>,
): Promise<PlannedImport> {
  const onLine = linesWithProgress(path, file, progress);
  const bytes = readFileSync(path);
  if (burn) {
    const made = burnOf(bytes, file, correction ?? {}, burn, onLine);
    // Made of a table or notes it has nothing of its own that could differ from what is here.
    const isHere = into !== undefined || store.documents.get('burn', made.record.id) !== undefined;
    return isHere ? { ...incomingBurns([made]), items: [] } : planned(store, [made]);
  }
  const opened = openFile(bytes, file, as, correction);
  return planned(store, opened.kind === 'burns' ? opened.records : []);
}

/**
 * Reports the line that has been reached, of all lines; undefined for a file that is no lines.
 * @throws AppError import/too-many-lines
 */
function linesWithProgress(path: string, file: string, progress: JobContext['progress']) {
  if (!isLines(startOf(path, TELLING_BYTES))) return undefined;
  const lines = countLines(path, MOST_LINES);
  if (lines > MOST_LINES) throw new AppError('import/too-many-lines', { file, limitMillions: MOST_LINES / 1e6 });
  return (line: number) => progress(line, lines);
}

/** @throws AppError as `planMerge` */
export async function planned(store: Store, records: readonly RecordParts[]): Promise<PlannedImport> {
  return { ...incomingBurns(records), items: await planMerge(store, records) };
}

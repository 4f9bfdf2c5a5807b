/** What a file is, found by looking into it. Pure but for the bytes it is given, so that a thread of its own can do it. */
import type { ColumnFormat, ColumnPreview, NotesFormat, NotesPreview } from '../../shared/contract/imports.ts';
import { AppError } from '../base/app-error.ts';
import type { RecordParts } from '../records/split-record.ts';
import { type ColumnsAsBurn, columnsToBurn, previewColumns } from './columns/columns-file.ts';
import type { KnownOfColumns } from './columns/guess-format.ts';
import { decode, guessEncoding, textOf } from './common/text-encoding.ts';
import { notesToBurn, previewNotes } from './notes/notes.ts';
import { isArchive, readPackageFile } from './package-file.ts';
import { requireText } from './plain-text.ts';
import { readRecordFile } from './record-file.ts';

export type OpenedFile =
  | { kind: 'burns'; records: RecordParts[] }
  | { kind: 'columns'; columns: ColumnPreview }
  | { kind: 'notes'; notes: NotesPreview };

/** How a person says the file is to be read. */
export interface Correction {
  columns?: ColumnFormat | undefined;
  notes?: NotesFormat | undefined;
  /** What is known of a table while the rest is guessed again. */
  guess?: KnownOfColumns | undefined;
}

/**
 * @param as said by the person where the file alone does not tell: notes are often a table as well
 * @param onLine is told the line of a table that has been reached, now and then
 * @throws AppError import/... when it is nothing that can be brought in
 */
export function openFile(
  bytes: Uint8Array,
  file: string,
  as?: 'columns' | 'notes',
  correction?: Correction,
  onLine?: (line: number) => void,
): OpenedFile {
  if (isArchive(bytes)) return { kind: 'burns', records: readPackageFile(bytes, file) };
  const isCorrected = Object.values(correction ?? {}).some((given) => given !== undefined);
  if (as === undefined && !isCorrected && startsAsJson(bytes)) {
    return { kind: 'burns', records: [readRecordFile(textOf(bytes, file), file)] };
  }
  requireText(bytes, file);
  if (as === 'notes' || correction?.notes) {
    return { kind: 'notes', notes: previewNotes(decode(bytes, guessEncoding(bytes), file), correction?.notes, file) };
  }
  return { kind: 'columns', columns: previewColumns(bytes, file, correction?.columns, correction?.guess, onLine) };
}

/** The burn that a table or notes become. */
export function burnOf(
  bytes: Uint8Array,
  file: string,
  correction: Correction,
  as: ColumnsAsBurn,
  onLine?: (line: number) => void,
): RecordParts {
  if (correction.columns) return columnsToBurn(bytes, file, correction.columns, as, onLine);
  if (correction.notes) return notesToBurn(decode(bytes, guessEncoding(bytes), file), file, correction.notes, as);
  throw new AppError('import/no-columns', { file });
}

/** As many bytes tell what a file is. */
export const TELLING_BYTES = 256;

/** Whether a file that begins so is lines of text. @param start its first `TELLING_BYTES` */
export function isLines(start: Uint8Array): boolean {
  return !isArchive(start) && !startsAsJson(start);
}

function startsAsJson(bytes: Uint8Array): boolean {
  const start = bytes.subarray(0, TELLING_BYTES);
  return /^\s*[{[]/.test(new TextDecoder(guessEncoding(start)).decode(start));
}

/** The entries of the person about a file being imported. */
import type { ClockStep, ColumnFormat, ImportChoice, NoteLine, NotesFormat } from '../../../shared/contract/imports.ts';
import type { NoteMark } from '../../../shared/contract/mark-kinds.ts';
import type { ReadingsDraft } from './burn-of-readings.tsx';
import type { Doubted } from './column-format.ts';
/** An entry about a line, valid as long as the text of that line is the same. */
export type OfLine<T> = T & { readonly line: number; readonly text: string };

export interface RemarkDraft {
  readonly mark: NoteMark | 'none';
  /** As typed; for marks that may have a mass. */
  readonly mass: string;
}

/** All entries of the person about the file. They outlast a reload, a change of screen and the service's own copy. */
export interface Work {
  /** Identifier of the file that waits in the service; empty for none. */
  readonly id: string;
  /** The present text of the notes. */
  readonly text: string;
  readonly isNotes?: boolean;
  readonly columns?: ColumnFormat;
  readonly doubted?: Doubted;
  readonly notes?: Pick<NotesFormat, 'time' | 'unit'>;
  readonly clockSteps?: readonly OfLine<ClockStep>[];
  /** What a line of notes becomes, as chosen and typed. */
  readonly remarks?: readonly OfLine<RemarkDraft>[];
  readonly names?: readonly string[];
  readonly burn?: Partial<ReadingsDraft>;
  readonly taken?: Readonly<Record<string, ImportChoice>>;
}

export const NOTHING: Work = { id: '', text: '' };

/** Entries about lines that exist and are unchanged. */
export function stillEntered<T>(written: readonly OfLine<T>[] | undefined, lines: readonly NoteLine[]): OfLine<T>[] {
  return (written ?? []).filter((one) => lines.some(({ line, text }) => line === one.line && text === one.text));
}

export function stepsOf(written: Work['clockSteps'], lines: readonly NoteLine[]): Pick<NotesFormat, 'clockSteps'> {
  const clockSteps = stillEntered(written, lines).map(({ line, byS }) => ({ line, byS }));
  return clockSteps.length > 0 ? { clockSteps } : {};
}

/** What the person says of a file that is on its way in. */
import type { ClockStep, ColumnFormat, ImportChoice, NoteLine, NotesFormat } from '../../../shared/contract/imports.ts';
import type { NoteMark } from '../../../shared/contract/mark-kinds.ts';
import type { ReadingsDraft } from './burn-of-readings.tsx';
import type { Doubted } from './column-format.ts';
/** Something said of a line, for as long as that line says the same. */
export type OfLine<T> = T & { readonly line: number; readonly text: string };

export interface RemarkDraft {
  readonly mark: NoteMark | 'none';
  /** As typed; of those marks that may have a mass. */
  readonly mass: string;
}

/** All that the person has said of the file. It outlives a reload, a look at another screen and the service's memory. */
export interface Work {
  /** Of the file that waits in the service; empty for none. */
  readonly id: string;
  /** Notes as they stand in the field. */
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

/** What was said of lines that are there and say the same. */
export function stillEntered<T>(written: readonly OfLine<T>[] | undefined, lines: readonly NoteLine[]): OfLine<T>[] {
  return (written ?? []).filter((one) => lines.some(({ line, text }) => line === one.line && text === one.text));
}

export function stepsOf(written: Work['clockSteps'], lines: readonly NoteLine[]): Pick<NotesFormat, 'clockSteps'> {
  const clockSteps = stillEntered(written, lines).map(({ line, byS }) => ({ line, byS }));
  return clockSteps.length > 0 ? { clockSteps } : {};
}

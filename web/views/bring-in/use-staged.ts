import { type Signal, useSignal, useSignalEffect } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type {
  ClockStep,
  ColumnFormat,
  CorrectImport,
  ImportChoice,
  ImportOutcome,
  ImportPreview,
  KeepImport,
  NoteLine,
  NoteMark,
  NotesFormat,
} from '../../../shared/contract/imports.ts';
import { Refusal } from '../../lib/api.ts';
import { type Doubted, isWhole } from '../../lib/column-format.ts';
import { loadBurns } from '../../state/burns.ts';
import { link } from '../../state/connection.ts';
import { dropFile, type Handed, handed, keepFile, lookAgain, notesFile, sendFile } from '../../state/imports.ts';
import { person } from '../../state/preferences.ts';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import type { ReadingsDraft } from './burn-of-readings.tsx';

export interface Trouble {
  /** Undefined when the service did not answer at all. */
  readonly code: string | undefined;
  readonly message: string;
  readonly issues: readonly { path: string; message: string }[];
}

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

/** One file on its way in: handed over, looked at, corrected, then kept or dropped. */
export interface Staged {
  readonly work: Signal<Work>;
  readonly preview: Signal<ImportPreview | undefined>;
  readonly outcome: Signal<ImportOutcome | undefined>;
  readonly trouble: Signal<Trouble | undefined>;
  readonly busy: Signal<'reading' | 'keeping' | undefined>;
  say(what: Partial<Work>): void;
  /** Another file; what was said of the one before is forgotten. */
  send(file: Handed): Promise<void>;
  /** The notes as they stand in the field now, read as the person said. */
  sendNotes(): Promise<void>;
  look(correction: CorrectImport): Promise<ImportPreview | undefined>;
  keep(how: Partial<KeepImport>): Promise<void>;
  /** Back to the beginning; nothing of the file stays. */
  cancel(): void;
}

const NOTHING: Work = { id: '', text: '' };

export function useStaged(): Staged {
  const { draft: work } = useDraft<Work>('bring-in', NOTHING);
  const preview = useSignal<ImportPreview | undefined>(undefined);
  const outcome = useSignal<ImportOutcome | undefined>(undefined);
  const trouble = useSignal<Trouble | undefined>(undefined);
  const busy = useSignal<'reading' | 'keeping' | undefined>(undefined);

  const { staged, resume } = useMemo(() => {
    let asked = 0;

    /** Only the newest question counts; what answers later was asked of something else. */
    async function newest<T>(what: 'reading' | 'keeping', ask: () => Promise<T>): Promise<T | undefined> {
      const number = ++asked;
      busy.value = what;
      trouble.value = undefined;
      try {
        const answer = await ask();
        return number === asked ? answer : undefined;
      } catch (cause) {
        if (number === asked) trouble.value = troubleOf(cause);
        return undefined;
      } finally {
        if (number === asked) busy.value = undefined;
      }
    }

    const translate = (what: Partial<Work>) => {
      work.value = { ...work.peek(), ...what };
    };

    function drop() {
      const { id } = work.peek();
      if (id !== '') void dropFile(id).catch(() => undefined);
    }

    function show(seen: ImportPreview, isCorrected = false) {
      translate({ id: seen.id, isNotes: seen.kind === 'notes' });
      if (seen.kind === 'columns' && !isCorrected) translate({ doubted: seen.columns });
      preview.value = seen;
    }

    /** Asks about the file that waits. A service that was started anew has forgotten it, and is given it again. */
    async function askOf<T>(ask: (id: string) => Promise<T>): Promise<T> {
      try {
        return await ask(work.peek().id);
      } catch (cause) {
        const file = handed.peek();
        if (troubleOf(cause).code !== 'import/not-found' || !file) throw cause;
        const { id } = await sendFile(file);
        translate({ id });
        return ask(id);
      }
    }

    async function sendNotes(): Promise<void> {
      const { text, notes, clockSteps } = work.peek();
      const file = notesFile(text);
      const seen = await newest('reading', async () => {
        const guess = await sendFile(file);
        if (guess.kind !== 'notes' || !(notes || clockSteps)) return guess;
        const steps = stepsOf(clockSteps, guess.notes.lines);
        return lookAgain(guess.id, { notes: { ...guess.notes.format, ...notes, ...steps } });
      });
      if (!seen) return;
      drop();
      handed.value = file;
      show(seen);
    }

    const staged: Staged = {
      work,
      preview,
      outcome,
      trouble,
      busy,
      say: translate,
      async send(file) {
        const before = handed.peek();
        handed.value = file;
        const seen = await newest('reading', () => sendFile(file));
        if (!seen) {
          if (preview.peek()) handed.value = before;
          return;
        }
        // What was looked at before is of no more use.
        drop();
        const text = seen.kind === 'notes' ? await file.content.text() : work.peek().text;
        work.value = { ...NOTHING, text };
        show(seen);
      },
      sendNotes,
      async look(correction) {
        const seen = await newest('reading', () => askOf((id) => lookAgain(id, correction)));
        if (seen) show(seen, correction.columns !== undefined);
        return seen;
      },
      async keep(how) {
        const by = person.peek().trim();
        const came = await newest('keeping', () => askOf((id) => keepFile(id, { ...how, ...(by && { by }) })));
        if (!came) return;
        work.value = { ...NOTHING, text: work.peek().isNotes ? '' : work.peek().text };
        handed.value = undefined;
        outcome.value = came;
        await loadBurns().catch(() => undefined);
      },
      cancel() {
        drop();
        asked++;
        handed.value = undefined;
        // Notes took somebody's time to type; they stay in their field.
        work.value = { ...NOTHING, text: work.peek().text };
        preview.value = undefined;
        outcome.value = undefined;
        trouble.value = undefined;
        busy.value = undefined;
      },
    };

    /** Where the person was before the page was left or the service went away. */
    async function resume(): Promise<void> {
      const { id, isNotes, columns } = work.peek();
      const file = handed.peek();
      if (busy.peek()) return;
      // It was on its way when the service went.
      if (id === '') return file && trouble.peek()?.code === undefined ? staged.send(file) : undefined;
      if (isNotes) return sendNotes();
      const seen = await staged.look(columns && isWhole(columns) ? { columns } : {});
      if (!seen && trouble.peek()?.code === 'import/not-found') translate({ ...NOTHING, text: work.peek().text });
    }
    return { staged, resume };
  }, []);
  useEffect(() => void resume(), [resume]);
  useSignalEffect(() => {
    const isAway = trouble.peek() !== undefined && trouble.peek()?.code === undefined;
    if (link.value === 'open' && isAway) void resume();
  });
  return staged;
}

/** What was said of lines that are there and say the same. */
export function stillSaid<T>(said: readonly OfLine<T>[] | undefined, lines: readonly NoteLine[]): OfLine<T>[] {
  return (said ?? []).filter((one) => lines.some(({ line, text }) => line === one.line && text === one.text));
}

export function stepsOf(said: Work['clockSteps'], lines: readonly NoteLine[]): Pick<NotesFormat, 'clockSteps'> {
  const clockSteps = stillSaid(said, lines).map(({ line, byS }) => ({ line, byS }));
  return clockSteps.length > 0 ? { clockSteps } : {};
}

function troubleOf(cause: unknown): Trouble {
  if (!(cause instanceof Refusal)) return { code: undefined, message: sentenceFor(cause), issues: [] };
  const { code, message, issues = [] } = cause.problem;
  return { code, message, issues };
}

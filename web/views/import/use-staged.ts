/** One file being imported: sent, reviewed, corrected, then saved or discarded. */
import { type Signal, signal, useSignalEffect } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { CorrectImport, ImportOutcome, ImportPreview, SaveImport } from '../../../shared/contract/imports.ts';
import { person } from '../../preferences/preferences.ts';
import {
  type ChosenFile,
  chosenFile,
  dropFile,
  lookAgain,
  notesFile,
  saveFile,
  sendFile,
} from '../../requests/imports.ts';
import { loadBurns } from '../../state/burns.ts';
import { link } from '../../state/connection.ts';
import { useDraft } from '../forms/use-draft.ts';
import { isWhole } from './column-format.ts';
import { NOTHING, stepsOf, type Work } from './import-work.ts';
import { oneQuestion, troubleOf } from './one-question.ts';

export type Staged = ReturnType<typeof stage>;

export function useStaged(): Staged {
  const { draft } = useDraft<Work>('bring-in', NOTHING);
  const staged = useMemo(() => stage(draft), []);
  useEffect(() => void staged.resume(), [staged]);
  useSignalEffect(() => {
    const trouble = staged.trouble.peek();
    if (link.value === 'open' && trouble && trouble.code === undefined) void staged.resume();
  });
  return staged;
}

function stage(work: Signal<Work>) {
  const { busy, trouble, newest, cancel } = oneQuestion<'reading' | 'keeping'>();
  const waiting = waitingFile(work);
  const { preview, update } = waiting;
  const outcome = signal<ImportOutcome | undefined>(undefined);

  /** Sends another file; entries about the one before are removed. */
  async function send(file: ChosenFile): Promise<void> {
    const before = chosenFile.peek();
    chosenFile.value = file;
    const seen = await newest('reading', () => sendFile(file));
    if (!seen) {
      if (preview.peek()) chosenFile.value = before;
      return;
    }
    // The file reviewed before is no longer needed.
    waiting.drop();
    const text = seen.kind === 'notes' ? await file.content.text() : work.peek().text;
    work.value = { ...NOTHING, text };
    waiting.show(seen);
  }

  /** Sends the present text of the notes, with the format chosen by the person. */
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
    waiting.drop();
    chosenFile.value = file;
    waiting.show(seen);
  }

  async function look(correction: CorrectImport): Promise<ImportPreview | undefined> {
    const seen = await newest('reading', () => waiting.ask((id) => lookAgain(id, correction)));
    if (seen) waiting.show(seen, correction.columns !== undefined);
    return seen;
  }

  async function save(how: Partial<SaveImport>): Promise<void> {
    const by = person.peek().trim();
    const came = await newest('keeping', () => waiting.ask((id) => saveFile(id, { ...how, ...(by && { by }) })));
    if (!came) return;
    work.value = { ...NOTHING, text: work.peek().isNotes ? '' : work.peek().text };
    chosenFile.value = undefined;
    outcome.value = came;
    await loadBurns().catch(() => undefined);
  }

  /** Continues where the person was before the page was left or the service went away. */
  async function resume(): Promise<void> {
    const { id, isNotes, columns } = work.peek();
    const file = chosenFile.peek();
    if (busy.peek()) return;
    // It was being sent when the service went away.
    if (id === '') return file && trouble.peek()?.code === undefined ? send(file) : undefined;
    if (isNotes) return sendNotes();
    const seen = await look(columns && isWhole(columns) ? { columns } : {});
    if (!seen && trouble.peek()?.code === 'import/not-found') update({ ...NOTHING, text: work.peek().text });
  }

  return {
    work,
    preview,
    outcome,
    trouble,
    busy,
    update,
    send,
    sendNotes,
    look,
    save,
    resume,
    /** Returns to the beginning; nothing of the file is left. */
    cancel() {
      waiting.drop();
      cancel();
      chosenFile.value = undefined;
      // Typed notes took time; they stay in their field.
      work.value = { ...NOTHING, text: work.peek().text };
      preview.value = undefined;
      outcome.value = undefined;
    },
  };
}

/** The file that waits in the service, and the preview of it. */
function waitingFile(work: Signal<Work>) {
  const preview = signal<ImportPreview | undefined>(undefined);
  const update = (what: Partial<Work>) => {
    work.value = { ...work.peek(), ...what };
  };
  return {
    preview,
    update,
    drop() {
      const { id } = work.peek();
      if (id !== '') void dropFile(id).catch(() => undefined);
    },
    show(seen: ImportPreview, isCorrected = false) {
      update({ id: seen.id, isNotes: seen.kind === 'notes' });
      if (seen.kind === 'columns' && !isCorrected) update({ doubted: seen.columns });
      preview.value = seen;
    },
    /** Sends a request about the file. A restarted service no longer has it, so it is sent again. */
    async ask<T>(question: (id: string) => Promise<T>): Promise<T> {
      try {
        return await question(work.peek().id);
      } catch (cause) {
        const file = chosenFile.peek();
        if (troubleOf(cause).code !== 'import/not-found' || !file) throw cause;
        const { id } = await sendFile(file);
        update({ id });
        return question(id);
      }
    },
  };
}

import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { CorrectImport, ImportOutcome, ImportPreview, KeepImport } from '../../../shared/contract/imports.ts';
import { Refusal } from '../../lib/api.ts';
import { loadBurns } from '../../state/burns.ts';
import { dropFile, keepFile, lookAgain, sendFile } from '../../state/imports.ts';
import { person } from '../../state/preferences.ts';
import { sentenceFor } from '../kit/use-load.ts';

export interface Trouble {
  readonly code: string | undefined;
  readonly message: string;
  readonly issues: readonly { path: string; message: string }[];
}

export interface Handed {
  readonly content: Blob;
  readonly name: string;
}

/** One file on its way in: handed over, looked at, corrected, then kept or dropped. */
export interface Staged {
  readonly handed: Signal<Handed | undefined>;
  readonly preview: Signal<ImportPreview | undefined>;
  readonly outcome: Signal<ImportOutcome | undefined>;
  readonly trouble: Signal<Trouble | undefined>;
  readonly busy: Signal<'reading' | 'keeping' | undefined>;
  send(file: Handed, as?: 'columns' | 'notes'): Promise<void>;
  look(correction: CorrectImport): Promise<ImportPreview | undefined>;
  keep(how: Partial<KeepImport>): Promise<void>;
  /** Back to the beginning; nothing of the file stays. */
  cancel(): void;
}

export function useStaged(): Staged {
  const handed = useSignal<Handed | undefined>(undefined);
  const preview = useSignal<ImportPreview | undefined>(undefined);
  const outcome = useSignal<ImportOutcome | undefined>(undefined);
  const trouble = useSignal<Trouble | undefined>(undefined);
  const busy = useSignal<'reading' | 'keeping' | undefined>(undefined);

  const staged = useMemo((): Staged => {
    let asked = 0;

    /** Only the newest question counts; what answers later was asked of something else. */
    async function newest<T>(what: 'reading' | 'keeping', ask: () => Promise<T>): Promise<T | undefined> {
      const number = ++asked;
      busy.value = what;
      try {
        const answer = await ask();
        if (number !== asked) return undefined;
        trouble.value = undefined;
        return answer;
      } catch (cause) {
        if (number === asked) trouble.value = troubleOf(cause);
        return undefined;
      } finally {
        if (number === asked) busy.value = undefined;
      }
    }

    function drop() {
      const id = preview.peek()?.id;
      if (id !== undefined && !outcome.peek()) void dropFile(id).catch(() => undefined);
    }

    return {
      handed,
      preview,
      outcome,
      trouble,
      busy,
      async send(file, as) {
        handed.value = file;
        const seen = await newest('reading', () => sendFile(file.content, file.name, as));
        if (!seen) return;
        // What was looked at before is of no more use.
        drop();
        preview.value = seen;
      },
      async look(correction) {
        const id = preview.peek()?.id;
        if (id === undefined) return undefined;
        const seen = await newest('reading', () => lookAgain(id, correction));
        if (seen) preview.value = seen;
        return seen;
      },
      async keep(how) {
        const id = preview.peek()?.id;
        if (id === undefined) return;
        const by = person.peek().trim();
        const came = await newest('keeping', () => keepFile(id, { ...how, ...(by && { by }) }));
        if (!came) return;
        outcome.value = came;
        await loadBurns().catch(() => undefined);
      },
      cancel() {
        drop();
        asked++;
        handed.value = undefined;
        preview.value = undefined;
        outcome.value = undefined;
        trouble.value = undefined;
        busy.value = undefined;
      },
    };
  }, []);
  useEffect(() => staged.cancel, [staged]);
  return staged;
}

function troubleOf(cause: unknown): Trouble {
  if (!(cause instanceof Refusal)) return { code: undefined, message: sentenceFor(cause), issues: [] };
  const { code, message, issues = [] } = cause.problem;
  return { code, message, issues };
}

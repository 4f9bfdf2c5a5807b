/** One request to the service at a time: only the newest counts; an answer to an earlier one is ignored. */
import { signal } from '@preact/signals';
import { Refusal } from '../../requests/http.ts';
import { sentenceFor } from '../kit/use-load.ts';

export interface Trouble {
  /** Undefined when the service did not answer. */
  readonly code: string | undefined;
  readonly message: string;
  readonly issues: readonly { path: string; message: string }[];
}

export function troubleOf(cause: unknown): Trouble {
  if (!(cause instanceof Refusal)) return { code: undefined, message: sentenceFor(cause), issues: [] };
  const { code, message, issues = [] } = cause.problem;
  return { code, message, issues };
}

export function oneQuestion<What extends string>() {
  const busy = signal<What | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  let asked = 0;
  return {
    busy,
    trouble,
    /** @returns undefined when it failed, or another request followed */
    async newest<T>(what: What, ask: () => Promise<T>): Promise<T | undefined> {
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
    },
    /** Answers to earlier requests no longer count. */
    cancel() {
      asked++;
      trouble.value = undefined;
      busy.value = undefined;
    },
  };
}

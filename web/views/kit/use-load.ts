import { type Signal, useSignal, useSignalEffect } from '@preact/signals';
import { useCallback, useEffect } from 'preact/hooks';
import type { Problem } from '../../../shared/contract/problem.ts';
import { translate } from '../../language/catalogue.ts';
import { Refusal } from '../../requests/http.ts';
import { link } from '../../state/connection.ts';

export interface Loaded<T> {
  readonly value: Signal<T | undefined>;
  readonly problem: Signal<string | undefined>;
  reload(): void;
}

/** Fetch data when a screen opens and whenever `key` changes; again when the service is back. */
export function useLoad<T>(key: string, fetchIt: () => Promise<T>): Loaded<T> {
  const value = useSignal<T | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  // the key stands for everything the fetch depends on
  const reload = useCallback(() => {
    fetchIt().then(
      (fetched) => {
        value.value = fetched;
        problem.value = undefined;
      },
      (cause: unknown) => {
        // Nothing was changed by this request: the message must not suggest that waiting entries are lost.
        problem.value = cause instanceof Refusal ? sentenceFor(cause) : translate().serviceAwayYet;
      },
    );
  }, [key]);
  useEffect(reload, [reload]);
  useSignalEffect(() => {
    if (link.value === 'open' && problem.peek() !== undefined) reload();
  });
  return { value, problem, reload };
}

/** The sentence to show for a failed request. */
export function sentenceFor(cause: unknown): string {
  return cause instanceof Refusal ? problemText(cause.problem) : translate().serviceAwayNow;
}

/** The sentence of a refusal, with every field that it names. */
export function problemText({ message, issues = [] }: Problem): string {
  return [message, ...issues.map((issue) => `${issue.path} ${issue.message}`)].join(' ');
}

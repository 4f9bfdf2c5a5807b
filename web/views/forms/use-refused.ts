/** Which problems of a form are shown after it was refused. */
import { useSignal } from '@preact/signals';
import type { Problems } from './field-spec.ts';
import { focusFirstWrong } from './focus-first-wrong.ts';

/**
 * A field is marked as invalid when the form is submitted, not while it is typed; from then on until it is valid.
 * @param found all present problems, by field
 */
export function useRefused(found: Problems) {
  const shown = useSignal<ReadonlySet<string>>(new Set());
  return {
    shown: Object.fromEntries(Object.entries(found).filter(([field]) => shown.value.has(field))) as Problems,
    /** The form was submitted: shows what is wrong and moves to the first problem. */
    refuse(form: HTMLElement) {
      shown.value = new Set(Object.keys(found));
      focusFirstWrong(form);
    },
  };
}

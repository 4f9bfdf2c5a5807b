/** A form that was refused: which of its problems are shown. */
import { useSignal } from '@preact/signals';
import type { Problems } from './field-spec.ts';
import { focusFirstWrong } from './focus-first-wrong.ts';

/**
 * A field is told to be wrong when the form is sent, not while it is typed; from then on until it is right.
 * @param found all that is wrong now, by field
 */
export function useRefused(found: Problems) {
  const shown = useSignal<ReadonlySet<string>>(new Set());
  return {
    shown: Object.fromEntries(Object.entries(found).filter(([field]) => shown.value.has(field))) as Problems,
    /** The form was sent as it stands: show what is wrong and go to the first of it. */
    refuse(form: HTMLElement) {
      shown.value = new Set(Object.keys(found));
      focusFirstWrong(form);
    },
  };
}

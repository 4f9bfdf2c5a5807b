/** A form that was refused: which of its problems are shown, and their names in one line. */
import { useSignal } from '@preact/signals';
import type { RefObject, VNode } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import { translate } from '../../state/catalogue.ts';
import { focusFirstWrong, type WrongEntry, wrongIn } from './focus-first-wrong.ts';

export type FieldProblems = Readonly<Partial<Record<string, string>>>;

/**
 * A field is told to be wrong when the form is sent, not while it is typed; from then on until it is right.
 * @param found all that is wrong now, by field
 */
export function useRefused(found: FieldProblems) {
  const told = useSignal<ReadonlySet<string>>(new Set());
  return {
    shown: Object.fromEntries(Object.entries(found).filter(([field]) => told.value.has(field))) as FieldProblems,
    /** The form was sent as it stands: show what is wrong and go to the first of it. */
    refuse(form: HTMLElement) {
      told.value = new Set(Object.keys(found));
      focusFirstWrong(form);
    },
  };
}

/** Names every field that is shown as wrong; each name leads to its field. */
export function WrongFields({
  form,
  problems,
}: {
  form: RefObject<HTMLElement | null>;
  problems: FieldProblems;
}): VNode {
  const entries = useSignal<readonly WrongEntry[]>([]);
  const key = Object.keys(problems).join('|');
  // once the fields themselves say that they are wrong
  useLayoutEffect(() => {
    entries.value = form.current && key !== '' ? wrongIn(form.current) : [];
  }, [key, form, entries]);
  return (
    <div class="wrong-fields problem" role="alert">
      {entries.value.length > 0 && (
        <>
          {translate().describe.wrong}{' '}
          {entries.value.map(({ name, focus }) => (
            <button type="button" class="plain" key={name} onClick={focus}>
              {name}
            </button>
          ))}
        </>
      )}
    </div>
  );
}

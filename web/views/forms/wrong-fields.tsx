/** Lists every field of a form that is marked as invalid; each name leads to its field. */
import { useSignal } from '@preact/signals';
import type { RefObject, VNode } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import type { Problems } from './field-spec.ts';
import { focusEntry } from './focus-first-wrong.ts';

export function WrongFields({ form, problems }: { form: RefObject<HTMLElement | null>; problems: Problems }): VNode {
  const entries = useSignal<readonly WrongEntry[]>([]);
  const key = Object.keys(problems).join('|');
  // after the fields themselves are marked as invalid
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

interface WrongEntry {
  /** As in its label. */
  readonly name: string;
  focus(): void;
}

/** Everything in a form that is marked as invalid; a sheet opened from it is a form of its own. */
function wrongIn(form: HTMLElement): WrongEntry[] {
  return [...form.querySelectorAll<HTMLElement>('.field.wrong, .choice.wrong')]
    .filter((field) => field.closest('dialog') === form.closest('dialog'))
    .flatMap((field) => {
      const entry = field.querySelector<HTMLElement>('input, select, textarea');
      const label = field.querySelector('label, legend')?.textContent ?? '';
      const of = field.closest<HTMLElement>('[data-of]')?.dataset.of;
      return entry ? [{ name: of ? `${of}, ${label}` : label, focus: () => focusEntry(entry) }] : [];
    });
}

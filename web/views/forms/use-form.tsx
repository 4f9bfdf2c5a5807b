/** A form with its fields: connects each to its draft, and on submit shows what is wrong and moves to it. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { sentenceFor } from '../kit/use-load.ts';
import { Choice, MomentField, SelectField, TextField } from './field.tsx';
import { type DraftOf, type Fields, type Known, type Problems, readFields, type ValuesOf } from './field-spec.ts';
import { useRefused } from './use-refused.ts';

export interface DraftProps<Draft> {
  draft: Draft;
  problems: Problems;
  onChange: (fields: Partial<Draft>) => void;
}

interface More {
  label?: string;
  hint?: string | undefined;
  placeholder?: string;
}

/**
 * @param prefix of the field names among the problems, where a form contains several similar groups
 * @returns a function that renders one field of the form
 */
export function fieldViews<F extends Fields, Draft extends DraftOf<F> = DraftOf<F>>(
  fields: F,
  { draft, problems, onChange }: DraftProps<Draft>,
  prefix = '',
): (key: keyof F & string, more?: More) => VNode {
  return (key, more) => (
    <FieldView
      field={{ ...fields[key]!, ...more }}
      text={draft[key] ?? ''}
      problem={problems[prefix + key]}
      onInput={(text) => onChange({ [key]: text } as Partial<Draft>)}
    />
  );
}

export function FieldView({
  field: { isHidden, looks, label, hint, unit, lines, options = [], placeholder },
  text,
  problem,
  onInput,
}: {
  field: Fields[string];
  text: string;
  problem: string | undefined;
  onInput: (text: string) => void;
}): VNode | null {
  if (isHidden) return null;
  const common = { label, hint, problem, value: text };
  switch (looks) {
    case 'choice':
      return <Choice {...common} options={options} onChange={onInput} />;
    case 'select':
      return <SelectField {...common} options={options} onChange={onInput} />;
    case 'moment':
      return <MomentField {...common} onInput={onInput} />;
    default:
      return (
        <TextField
          {...common}
          unit={unit}
          lines={lines}
          placeholder={placeholder}
          decimal={looks === 'figure'}
          onInput={onInput}
        />
      );
  }
}

/** @param known the values with which the form started, see `readFields` */
export function useForm<F extends Fields>(
  fields: F,
  draft: DraftOf<F>,
  onChange: (fields: Partial<DraftOf<F>>) => void,
  known?: Known<F>,
) {
  const read = readFields(fields, draft, known);
  const problems = useRefused(read.ok ? {} : read.problems);
  const refusal = useSignal<string | undefined>(undefined);
  const attempt = async (act: () => unknown) => {
    refusal.value = undefined;
    try {
      await act();
    } catch (cause) {
      refusal.value = sentenceFor(cause);
    }
  };
  return {
    field: fieldViews(fields, { draft, problems: problems.shown, onChange }),
    /** The sentence of a refusal by the service. */
    refusal: refusal.value,
    attempt,
    /** Moves to the first invalid field, or calls `act`. */
    submit: (act: (values: ValuesOf<F>) => unknown) => (event: Event) => {
      event.preventDefault();
      event.stopPropagation();
      if (read.ok) void attempt(() => act(read.values));
      else problems.refuse(event.currentTarget as HTMLFormElement);
    },
  };
}

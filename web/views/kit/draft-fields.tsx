/** The fields of a form tied to its draft: what stands in each, what is wrong with it, and where a change goes. */
import type { VNode } from 'preact';
import { Choice, SelectField, TextField } from './field.tsx';

export interface DraftProps<Draft> {
  draft: Draft;
  /** What is wrong, by field. */
  problems: Readonly<Partial<Record<string, string>>>;
  onChange: (fields: Partial<Draft>) => void;
}

type Texts<Draft> = { [Field in keyof Draft]: Draft[Field] extends string ? Field : never }[keyof Draft] & string;
type Options<Value> = readonly (readonly [Value, string])[];
interface More {
  hint?: string | undefined;
  placeholder?: string;
}

/** @returns one function for each kind of field; each takes the name of the field in the draft, and what it is called */
export function draftFields<Draft>({ draft, problems, onChange }: DraftProps<Draft>) {
  type Value<Field extends keyof Draft> = Draft[Field] & string;
  const change = (field: Texts<Draft>, value: string) => onChange({ [field]: value } as unknown as Partial<Draft>);
  const typed = (field: Texts<Draft>, label: string) => ({
    label,
    value: draft[field] as string,
    problem: problems[field],
    onInput: (value: string) => change(field, value),
  });
  const picked = <Field extends Texts<Draft>>(field: Field, label: string, options: Options<Value<Field>>) => ({
    label,
    value: draft[field] as Value<Field>,
    options,
    problem: problems[field],
    onChange: (value: Value<Field>) => change(field, value),
  });
  return {
    line: (field: Texts<Draft>, label: string, more?: More): VNode => <TextField {...typed(field, label)} {...more} />,
    figure: (field: Texts<Draft>, label: string, unit: string | undefined, more?: More): VNode => (
      <TextField decimal unit={unit} {...typed(field, label)} {...more} />
    ),
    choice: <Field extends Texts<Draft>>(field: Field, label: string, options: Options<Value<Field>>): VNode => (
      <Choice {...picked(field, label, options)} />
    ),
    select: <Field extends Texts<Draft>>(
      field: Field,
      label: string,
      options: Options<Value<Field>>,
      more?: Pick<More, 'hint'>,
    ): VNode => <SelectField {...picked(field, label, options)} {...more} />,
  };
}

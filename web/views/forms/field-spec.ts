/** One description per field of a form, from which its draft, its value, its problem and its view follow. */
import type { Dimension } from '../../../shared/language/display-units.ts';
import { translate } from '../../language/catalogue.ts';
import { type Entry, readNumber, readQuantity, typed, typedNumber, unit } from '../../language/figures.ts';

export type Options<Text extends string> = readonly (readonly [Text, string])[];

/** Created anew at each render, in the present language and units. */
export interface Field<Value, Text extends string = string> {
  readonly label: string;
  readonly hint?: string | undefined;
  /** What an empty field stands for. */
  readonly placeholder?: string;
  /** Shown behind the entry. */
  readonly unit?: string | undefined;
  readonly looks: 'line' | 'figure' | 'moment' | 'choice' | 'select';
  /** Of text that may be long. */
  readonly lines?: number;
  readonly options?: Options<Text>;
  /** The sentence for an empty field; without it the field may stay empty. */
  readonly needed?: string;
  /** Neither shown nor read, given the values of the other fields. */
  readonly isHidden?: boolean;
  /** A known value as its entry. */
  write(value: Value): Text;
  /** Parses an entry, which is trimmed and not empty. */
  read(text: string): Entry<Value>;
}

// biome-ignore lint/suspicious/noExplicitAny: a form has fields of different value types
export type Fields = Readonly<Record<string, Field<any, any>>>;

/** The entries of the fields of a form. */
export type DraftOf<F extends Fields> = {
  // biome-ignore lint/suspicious/noExplicitAny: as above
  readonly [K in keyof F]: F[K] extends Field<any, infer Text> ? Text | '' : never;
};

/** The values of the fields of a form; empty ones are omitted. */
export type ValuesOf<F extends Fields> = {
  readonly [K in keyof F as F[K] extends { needed: string } ? K : never]: ValueOf<F[K]>;
} & { readonly [K in keyof F as F[K] extends { needed: string } ? never : K]?: ValueOf<F[K]> };
// biome-ignore lint/suspicious/noExplicitAny: as above
type ValueOf<One> = One extends Field<infer Value, any> ? Value : never;

/** Known values before anything is typed. */
export type Known<F extends Fields> = { readonly [K in keyof F]?: ValueOf<F[K]> | undefined };

/** What is wrong, by field. */
export type Problems = Readonly<Partial<Record<string, string>>>;

type Words = Pick<Fields[string], 'label' | 'hint' | 'placeholder'>;
type Limits = NonNullable<Parameters<typeof readQuantity>[2]>;

export function line(words: Words & { lines?: number }): Field<string> {
  return { ...words, looks: 'line', write: (text) => text, read: right };
}

/** A quantity typed in the unit of this device; its limits are in the base unit. */
export function quantity(
  dimension: Dimension,
  { low, high, positive, decimals, ...looks }: Words & Limits & { decimals?: number; unit?: string },
): Field<number> {
  return {
    unit: unit(dimension),
    ...looks,
    looks: 'figure',
    write: (value) => typed(dimension, value, decimals),
    read: (text) => readQuantity(dimension, text, { low, high, positive }),
  };
}

/** A number in a unit of its own. @param factor from the typed number to the value; limits apply to the typed number */
export function figure({
  factor = 1,
  decimals = 3,
  low,
  high,
  positive,
  ...looks
}: Words & Limits & { unit?: string; factor?: number; decimals?: number }): Field<number> {
  const words = translate().describe.number;
  const limit = (value: number) => [typedNumber(value, 2).replace('-', '−'), looks.unit].filter(Boolean).join('\u00a0');
  return {
    ...looks,
    looks: 'figure',
    write: (value) => typedNumber(value / factor, decimals),
    read(text) {
      const entry = readNumber(text);
      if (!entry.ok) return entry;
      const { value } = entry;
      if (positive && value <= 0) return wrong(words.notPositive);
      if (low !== undefined && value < low) return wrong(words.tooLow({ low: limit(low) }));
      if (high !== undefined && value > high) return wrong(words.tooHigh({ high: limit(high) }));
      return right(value * factor);
    },
  };
}

/** A choice between a few alternatives, shown in a row. */
export function choice<Text extends string>(words: Words, options: Options<Text>): Field<Text, Text> {
  return { ...words, options, looks: 'choice', write: (text) => text, read: (text) => right(text as Text) };
}

export function select<Text extends string>(words: Words, options: Options<Text>): Field<Text, Text> {
  return { ...choice(words, options), looks: 'select' };
}

export function needed<F extends Fields[string]>(field: F): F & { needed: string } {
  const words = translate().describe.number;
  return { ...field, needed: field.options ? words.choose : field.looks === 'figure' ? words.blank : words.text };
}

/** A field that is shown only in some cases. */
export function askedIf<Value, Text extends string>(isAsked: boolean, field: Field<Value, Text>): Field<Value, Text> {
  return { ...field, isHidden: !isAsked };
}

export function right<Value>(value: Value): Entry<Value> {
  return { ok: true, value };
}

export function wrong(problem: string): { ok: false; problem: string } {
  return { ok: false, problem };
}

/** Known values as the entries of the fields. */
export function draftOf<F extends Fields>(fields: F, known: Known<F>): DraftOf<F> {
  const values = known as Readonly<Record<string, unknown>>;
  return Object.fromEntries(
    Object.entries(fields).map(([key, field]) => [key, values[key] === undefined ? '' : field.write(values[key])]),
  ) as DraftOf<F>;
}

export type ReadFields<F extends Fields> = { ok: true; values: ValuesOf<F> } | { ok: false; problems: Problems };

/**
 * The values of the fields, or what is wrong with them.
 * @param known the values with which the form started: an unchanged entry keeps its exact value, whatever precision the
 *   field shows
 */
export function readFields<F extends Fields>(
  fields: F,
  draft: { readonly [K in keyof F]?: string },
  known: Known<F> = {},
): ReadFields<F> {
  const values: Record<string, unknown> = {};
  const problems: Record<string, string> = {};
  for (const [key, field] of Object.entries(fields)) {
    const text = (draft[key] ?? '').trim();
    const before = (known as Readonly<Record<string, unknown>>)[key];
    if (field.isHidden) continue;
    if (before !== undefined && text === field.write(before)) values[key] = before;
    else if (text === '') {
      if (field.needed) problems[key] = field.needed;
    } else {
      const entry = field.read(text);
      if (entry.ok) values[key] = entry.value;
      else problems[key] = entry.problem;
    }
  }
  return Object.keys(problems).length > 0 ? { ok: false, problems } : { ok: true, values: values as ValuesOf<F> };
}

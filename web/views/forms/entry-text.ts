/** Entries as a person reads them. */
import type { Fields } from './field-spec.ts';

/** An entry as a person reads it: the words of what was chosen, a figure with its unit. */
export function entryText({ options, unit: of }: Fields[string], text: string): string {
  if (text === '') return '';
  return options?.find(([key]) => key === text)?.[1] ?? (of ? `${text}\u00a0${of}` : text);
}

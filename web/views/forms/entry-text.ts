/** Entries as readable text. */
import type { Fields } from './field-spec.ts';

/** An entry as readable text: the label of what was chosen, a number with its unit. */
export function entryText({ options, unit: of }: Fields[string], text: string): string {
  if (text === '') return '';
  return options?.find(([key]) => key === text)?.[1] ?? (of ? `${text}\u00a0${of}` : text);
}

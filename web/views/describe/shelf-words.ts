/** What the fields of a thing on the shelf are called, and what stands in one, as a person reads it. */
import type { ShelfKind } from '../../../shared/contract/api.ts';
import { say } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { shelves } from '../../state/shelf.ts';
import { shelfFields } from './shelf-fields.ts';

export function labelOf(kind: ShelfKind, key: string): string {
  const words = say().describe.fields;
  if (key.startsWith('dimension ')) return key.slice('dimension '.length);
  const label = shelfFields[kind].find((spec) => spec.key === key)?.label ?? key;
  const said = (words as Readonly<Record<string, unknown>>)[label];
  return typeof said === 'string' ? said : key;
}

/** @param text as the draft has it; empty for what is not said */
export function valueText(kind: ShelfKind, key: string, text: string): string {
  if (text === '') return '';
  const words = say().describe.fields;
  if (key === 'photo') return say().describe.meanwhile.otherPhoto;
  if (key === 'moisture') return `${text}\u00a0%`;
  if (key === 'basis') return words.bases[text as keyof typeof words.bases];
  if (key === 'how') return words.hows[text as keyof typeof words.hows];
  if (key.startsWith('dimension ')) return `${text}\u00a0${unit('length')}`;
  const is = shelfFields[kind].find((spec) => spec.key === key)?.is;
  switch (is?.a) {
    case 'stove':
      return shelves.value?.stoves.find(({ id }) => id === text)?.name ?? text;
    case 'parent':
      return shelves.value?.revisions.find(({ id }) => id === text)?.label ?? text;
    case 'lotKind':
      return words.kinds[text as keyof typeof words.kinds];
    case 'quantity':
      return `${text}\u00a0${unit(is.dimension)}`;
    case 'altitude':
      return `${text}\u00a0${words.metres}`;
    default:
      return text;
  }
}

/** What the fields of a thing on the shelf are called, and what stands in one, as a person reads it. */
import type { InventoryKind } from '../../../shared/contract/inventory.ts';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { shelves } from '../../state/inventory.ts';
import { inventoryFields } from './inventory-fields.ts';

export function labelOf(kind: InventoryKind, key: string): string {
  const words = translate().describe.fields;
  if (key.startsWith('dimension ')) return key.slice('dimension '.length);
  const label = inventoryFields[kind].find((spec) => spec.key === key)?.label ?? key;
  const said = (words as Readonly<Record<string, unknown>>)[label];
  return typeof said === 'string' ? said : key;
}

/** @param text as the draft has it; empty for what is not said */
export function valueText(kind: InventoryKind, key: string, text: string): string {
  if (text === '') return '';
  const words = translate().describe.fields;
  if (key === 'photo') return translate().describe.meanwhile.otherPhoto;
  if (key === 'moisture') return `${text}\u00a0%`;
  if (key === 'basis') return words.bases[text as keyof typeof words.bases];
  if (key === 'how') return words.hows[text as keyof typeof words.hows];
  if (key.startsWith('dimension ')) return `${text}\u00a0${unit('length')}`;
  const is = inventoryFields[kind].find((spec) => spec.key === key)?.is;
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

/** Names for the contents of a file. */
import type { ImportItem } from '../../../shared/contract/imports.ts';
import { translate, translateImport } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';

const ofBurns: readonly ImportItem['kind'][] = ['burn', 'readings', 'mark', 'weighing', 'exclusion'];

export function isOnInventory({ kind }: ImportItem): boolean {
  return !ofBurns.includes(kind);
}

export function itemKey({ kind, id }: Pick<ImportItem, 'kind' | 'id'>): string {
  return `${kind} ${id}`;
}

/** "readings, 12 marks, 5 weighings". */
export function thingsWords(items: readonly Pick<ImportItem, 'kind'>[]): string {
  const counts = new Map<ImportItem['kind'], number>();
  for (const { kind } of items) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts].map(([kind, count]) => translateImport().merge.things[kind]({ count })).join(', ');
}

/** The name of one item: "Mark: fed", "Weighing: char, after the burn", "Stove: Heron". */
export function itemWords(item: ImportItem): string {
  const { kind, name } = item;
  const called = translateImport().merge.called({ kind: translateImport().kinds[kind], name: ownName(kind, name) });
  const atUs = momentOf(item);
  return atUs === undefined
    ? called
    : translateImport().merge.atMinute({ what: called, minute: number(atUs / 60e6, 1) });
}

/** The moment, from the copy here if there is one: a burn has many marks of one kind. */
function momentOf({ mine, theirs }: ImportItem): number | undefined {
  for (const copy of [mine, theirs]) {
    if (typeof copy !== 'object' || copy === null || Array.isArray(copy)) continue;
    if (typeof copy.elapsedUs === 'number') return copy.elapsedUs;
  }
  return undefined;
}

function ownName(kind: ImportItem['kind'], name: string): string {
  if (kind === 'mark')
    return (translate().marks.names as Readonly<Record<string, string>>)[name]?.toLowerCase() ?? name;
  if (kind !== 'weighing') return name;
  const [of = '', when] = name.split(' ');
  const words = translate().burns.wrap;
  const what = (words as Readonly<Record<string, unknown>>)[of];
  return `${typeof what === 'string' ? what.toLowerCase() : of}, ${(when === 'start' ? words.startTitle : words.endTitle).toLowerCase()}`;
}

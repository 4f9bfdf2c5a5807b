/**
 * Groups burns into blocks, by day or by lot of wood, so that whatever else was different there affects both revisions.
 */
import type { BlockKind } from '../contract/comparison.ts';
import type { ComparedBurn } from './compared-burn.ts';
import { dayOf } from './days.ts';

/** Name of the block a burn belongs to; undefined when that is not recorded. */
export function blockOf(compared: ComparedBurn, kind: BlockKind): string | undefined {
  if (kind === 'day') return dayOf(compared);
  if (kind === 'lot') return compared.burn.fuelLots.find((lot) => lot.kind === 'wood')?.id;
  return undefined;
}

/** Groups entries by block and returns the blocks with entries of both sides. */
export function completeBlocks<T extends { place: number; block: string | undefined }>(
  entries: readonly T[],
): { a: T[]; b: T[] }[] {
  const blocks = new Map<string, { a: T[]; b: T[] }>();
  for (const entry of entries) {
    if (entry.block === undefined) continue;
    const block = blocks.get(entry.block) ?? { a: [], b: [] };
    block[entry.place === 0 ? 'a' : 'b'].push(entry);
    blocks.set(entry.block, block);
  }
  return [...blocks.values()].filter(({ a, b }) => a.length > 0 && b.length > 0);
}

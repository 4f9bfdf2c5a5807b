/** Burns put into blocks: whatever else happened on a day, or with a lot of wood, then happened to both revisions. */
import type { BlockKind } from '../contract/comparison.ts';
import type { BurnDocument } from './compared-burn.ts';

/** Name of the block a burn belongs to; undefined when that is not recorded. */
export function blockOf(burn: BurnDocument, kind: BlockKind): string | undefined {
  if (kind === 'day')
    return burn.startedUtcMs === undefined ? undefined : localDay(burn.startedUtcMs, burn.zone ?? 'UTC');
  if (kind === 'lot') return burn.fuelLots.find((lot) => lot.kind === 'wood')?.id;
  return undefined;
}

function localDay(utcMs: number, timeZone: string): string {
  return new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short' }).format(utcMs);
}

/** Groups entries by block, keeping the blocks that hold both sides. */
export function completeBlocks<T extends { side: 'a' | 'b'; block: string | undefined }>(
  entries: readonly T[],
): { a: T[]; b: T[] }[] {
  const blocks = new Map<string, { a: T[]; b: T[] }>();
  for (const entry of entries) {
    if (entry.block === undefined) continue;
    const block = blocks.get(entry.block) ?? { a: [], b: [] };
    block[entry.side].push(entry);
    blocks.set(entry.block, block);
  }
  return [...blocks.values()].filter(({ a, b }) => a.length > 0 && b.length > 0);
}

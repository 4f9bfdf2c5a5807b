import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { InventoryItem, InventoryKind } from '../../../../shared/contract/inventory.ts';
import { burns, loadBurns } from '../../../state/burns.ts';
import { loadShelves, shelves } from '../../../state/inventory.ts';
import { Fetching } from '../../kit/fetching.tsx';
import { useLoad } from '../../kit/use-load.ts';

export type Shelves = { readonly [K in InventoryKind]: readonly InventoryItem<K>[] };

/** Fetches what every comparing screen starts from: the list of burns and what stands on the shelf. */
export function WithBurns({ show }: { show: (all: readonly BurnSummary[], inventory: Shelves) => VNode }): VNode {
  const loading = useLoad('burns', loadBurns);
  const shelving = useLoad('shelves', loadShelves);
  if (!burns.value) return <Fetching of={loading} />;
  if (!shelves.value) return <Fetching of={shelving} />;
  return show(burns.value, shelves.value);
}

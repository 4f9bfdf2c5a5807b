import type { VNode } from 'preact';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import { burns, loadBurns } from '../../../state/burns.ts';
import { currentInventory, type Inventory, loadInventory } from '../../../state/inventory.ts';
import { Fetching } from '../../kit/fetching.tsx';
import { useLoad } from '../../kit/use-load.ts';

/** Loads the data that every comparing screen needs: the list of burns and the inventory. */
export function WithBurns({ show }: { show: (all: readonly BurnSummary[], inventory: Inventory) => VNode }): VNode {
  const loading = useLoad('burns', loadBurns);
  const loadingInventory = useLoad('inventory', loadInventory);
  if (!burns.value) return <Fetching of={loading} />;
  if (!currentInventory.value) return <Fetching of={loadingInventory} />;
  return show(burns.value, currentInventory.value);
}

/** Names of inventory documents. */

import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import { revisionName } from '../../../shared/language/revision-name.ts';
import { currentInventory } from '../../state/inventory.ts';
import type { Options } from '../forms/field-spec.ts';

/** Revisions are named with their stove. */
export function nameOf(item: InventoryItem<InventoryKind>): string {
  if ('name' in item) return item.name;
  if (!('label' in item)) return '';
  return revisionName(
    currentInventory.value?.stoves.find(({ id }) => id === item.stoveId),
    item,
  );
}

export function inventoryOptions(kind: InventoryKind): Options<string> {
  const items = (currentInventory.value?.[kind] ?? []) as readonly InventoryItem<InventoryKind>[];
  return items.map((item) => [item.id, nameOf(item)]);
}

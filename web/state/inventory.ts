/** Things described once and used in many burns: stoves, revisions, vessels, fuel lots, places, scales. */
import { signal } from '@preact/signals';
import type { InventoryItem, InventoryKind } from '../../shared/contract/inventory.ts';
import { requestAt } from './service.ts';

export type Shelves = { [K in InventoryKind]: readonly InventoryItem<K>[] };

/** Address of each kind under /api. */
const paths: Record<InventoryKind, string> = {
  stoves: 'stoves',
  revisions: 'revisions',
  vessels: 'vessels',
  fuelLots: 'fuel-lots',
  places: 'places',
  scales: 'scales',
};
export const inventoryKinds = Object.keys(paths) as InventoryKind[];

export const shelves = signal<Shelves | undefined>(undefined);

/** Read all shelves again. */
export async function loadShelves(): Promise<Shelves> {
  const lists = await Promise.all(
    inventoryKinds.map((kind) => requestAt<Record<string, unknown>>('GET', `/${paths[kind]}`)),
  );
  const read = Object.fromEntries(inventoryKinds.map((kind, at) => [kind, listIn(lists[at])])) as unknown as Shelves;
  shelves.value = read;
  return read;
}

/** Put a new thing on its shelf. The id is made here, so sending it twice is harmless. */
export async function addToInventory<K extends InventoryKind>(
  kind: K,
  item: Omit<InventoryItem<K>, 'version'>,
): Promise<void> {
  await requestAt('POST', `/${paths[kind]}`, item);
  await loadShelves();
}

/** Change a thing, at the version it was read. Throws Refusal when somebody else changed it meanwhile. */
export async function changeOnInventory<K extends InventoryKind>(kind: K, item: InventoryItem<K>): Promise<void> {
  const { version, ...rest } = item;
  await requestAt('PUT', `/${paths[kind]}/${rest.id}`, { ...rest, expectedVersion: version });
  await loadShelves();
}

function listIn(answer: Record<string, unknown> | undefined): unknown[] {
  return Array.isArray(answer) ? answer : ((Object.values(answer ?? {})[0] as unknown[]) ?? []);
}

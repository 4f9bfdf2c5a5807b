/** Documents described once and used in many burns: stoves, revisions, vessels, fuel lots, places, scales. */
import { signal } from '@preact/signals';
import type { InventoryItem, InventoryKind } from '../../shared/contract/inventory.ts';
import { inventoryPaths } from '../../shared/contract/inventory-paths.ts';
import type { BodyOf } from '../../shared/contract/routes.ts';
import { call } from '../requests/service.ts';

export type Inventory = { [K in InventoryKind]: readonly InventoryItem<K>[] };

export const inventoryKinds = Object.keys(inventoryPaths) as InventoryKind[];

export const currentInventory = signal<Inventory | undefined>(undefined);

/** Load the whole inventory again. */
export async function loadInventory(): Promise<Inventory> {
  const lists = await Promise.all(inventoryKinds.map((kind) => call(`GET /${inventoryPaths[kind]}`)));
  const read = Object.assign({}, ...lists) as Inventory;
  currentInventory.value = read;
  return read;
}

type AddRoute = `POST /${(typeof inventoryPaths)[InventoryKind]}`;
type ChangeRoute = `PUT /${(typeof inventoryPaths)[InventoryKind]}/:id`;

/** Add a document to the inventory. The id is made here, so that sending it twice is harmless. */
export async function addToInventory<K extends InventoryKind>(
  kind: K,
  item: BodyOf<`POST /${(typeof inventoryPaths)[K]}`>,
): Promise<void> {
  const route: AddRoute = `POST /${inventoryPaths[kind]}`;
  await call(route, { body: item as BodyOf<AddRoute> });
  await loadInventory();
}

/** Change a document, based on the version that was read. Throws Refusal when another person changed it meanwhile. */
export async function changeOnInventory<K extends InventoryKind>(kind: K, item: InventoryItem<K>): Promise<void> {
  const { version, ...rest } = item;
  const route: ChangeRoute = `PUT /${inventoryPaths[kind]}/:id`;
  // All of one kind; the type checker cannot infer which of the six.
  const body = { ...rest, expectedVersion: version } as unknown as BodyOf<ChangeRoute>;
  await call(route, { params: { id: rest.id }, body });
  await loadInventory();
}

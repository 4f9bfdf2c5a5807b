/** Things described once and used in many burns: stoves, revisions, vessels, fuel lots, places, scales. */
import { signal } from '@preact/signals';
import type { InventoryItem, InventoryKind } from '../../shared/contract/inventory.ts';
import { inventoryPaths } from '../../shared/contract/inventory-paths.ts';
import type { BodyOf } from '../../shared/contract/routes.ts';
import { call } from './service.ts';

export type Shelves = { [K in InventoryKind]: readonly InventoryItem<K>[] };

export const inventoryKinds = Object.keys(inventoryPaths) as InventoryKind[];

export const shelves = signal<Shelves | undefined>(undefined);

/** Read all shelves again. */
export async function loadShelves(): Promise<Shelves> {
  const lists = await Promise.all(inventoryKinds.map((kind) => call(`GET /${inventoryPaths[kind]}`)));
  const read = Object.assign({}, ...lists) as Shelves;
  shelves.value = read;
  return read;
}

type AddRoute = `POST /${(typeof inventoryPaths)[InventoryKind]}`;
type ChangeRoute = `PUT /${(typeof inventoryPaths)[InventoryKind]}/:id`;

/** Put a new thing on its shelf. The id is made here, so sending it twice is harmless. */
export async function addToInventory<K extends InventoryKind>(
  kind: K,
  item: BodyOf<`POST /${(typeof inventoryPaths)[K]}`>,
): Promise<void> {
  const route: AddRoute = `POST /${inventoryPaths[kind]}`;
  await call(route, { body: item as BodyOf<AddRoute> });
  await loadShelves();
}

/** Change a thing, at the version it was read. Throws Refusal when somebody else changed it meanwhile. */
export async function changeOnInventory<K extends InventoryKind>(kind: K, item: InventoryItem<K>): Promise<void> {
  const { version, ...rest } = item;
  const route: ChangeRoute = `PUT /${inventoryPaths[kind]}/:id`;
  // Of one kind; which of the six is beyond the type checker.
  const body = { ...rest, expectedVersion: version } as unknown as BodyOf<ChangeRoute>;
  await call(route, { params: { id: rest.id }, body });
  await loadShelves();
}

import type { InventoryKind } from '../../shared/contract/inventory.ts';
import { AppError } from '../base/app-error.ts';
import type { WallClock } from '../base/wall-clock.ts';
import type { DocumentKind, DocumentOf, Store, StoredDocument } from '../store/store.ts';

const documentKinds = {
  stoves: 'stove',
  revisions: 'revision',
  vessels: 'vessel',
  fuelLots: 'fuelLot',
  places: 'place',
  scales: 'scale',
} as const satisfies Record<InventoryKind, DocumentKind>;

type Body = DocumentOf<(typeof documentKinds)[InventoryKind]>;

/** An inventory document with its version. Its schema in the contract defines the fields. */
export interface InventoryItem {
  id: string;
  version: number;
}

/** One version of an inventory document, with its time and author. */
export interface InventoryVersion {
  item: InventoryItem;
  editedAtMs: number;
  by?: string;
}

/**
 * Inventory documents are described once and used in many burns. They are never deleted: burns of years ago refer to
 * them.
 */
export interface Inventory {
  list(kind: InventoryKind): InventoryItem[];
  /** @throws AppError shelf/not-found */
  get(kind: InventoryKind, id: string): InventoryItem;
  history(kind: InventoryKind, id: string): InventoryVersion[];
  create(kind: InventoryKind, body: Body, by?: string): { item: InventoryItem; created: boolean };
  /** @throws AppError shelf/not-found, store/conflict */
  revise(kind: InventoryKind, body: Body, expectedVersion: number, by?: string): InventoryItem;
}

export function createInventory(store: Store, clock: WallClock): Inventory {
  const { documents } = store;

  function newest(kind: InventoryKind, id: string): StoredDocument<DocumentKind> {
    const found = documents.get(documentKinds[kind], id);
    if (!found) throw new AppError('shelf/not-found', { kind: documentKinds[kind], id });
    return found;
  }

  function requireParents(body: Body): void {
    if ('stoveId' in body && body.stoveId) newest('stoves', body.stoveId);
    if ('parentId' in body && body.parentId) newest('revisions', body.parentId);
  }

  /** The service sets the time at which the number of days was entered; it stays as long as the number does. */
  function stamped(body: Body, before?: Body): Body {
    if (!('plannedDays' in body) || body.plannedDays === undefined) return body;
    const { days } = body.plannedDays;
    const given = before && 'plannedDays' in before ? before.plannedDays : undefined;
    return { ...body, plannedDays: given?.days === days ? given : { days, setAtUtcMs: clock.wallMs() } };
  }

  return {
    list: (kind) =>
      documents
        .list(documentKinds[kind])
        .filter(({ withdrawn }) => !withdrawn)
        .map(asThing),
    get: (kind, id) => asThing(newest(kind, id)),
    history(kind, id) {
      newest(kind, id);
      return documents.history(documentKinds[kind], id).map((version) => ({
        item: asThing(version),
        editedAtMs: version.editedAtMs,
        ...(version.by !== undefined && { by: version.by }),
      }));
    },
    create(kind, body, by) {
      requireParents(body);
      const { document, created } = documents.create(documentKinds[kind], { id: body.id, body: stamped(body), by });
      return { item: asThing(document), created };
    },
    revise(kind, body, expectedVersion, by) {
      const before = newest(kind, body.id);
      requireParents(body);
      const next = stamped(body, before.body as Body);
      return asThing(documents.revise(documentKinds[kind], body.id, { expectedVersion, body: next, by }));
    },
  };
}

function asThing({ id, body, version }: StoredDocument<DocumentKind>): InventoryItem {
  return { ...body, id, version };
}

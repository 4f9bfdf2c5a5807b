import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { saveSmallCurve, smallCurve } from '../curves/small-curve.ts';
import { readScans } from '../store/scan-columns.ts';
import type { DocumentKind, Store } from '../store/store.ts';
import { readBoardsInTurns } from './board-readings.ts';
import { assembleRecord } from './burn-record.ts';
import { type IncomingBurn, type IncomingBurns, incomingBurns, thinned } from './incoming-burns.ts';
import { burnDocument, entryDocuments, inventoryDocuments, type RecordDocument } from './record-documents.ts';
import { recordWithoutReadings } from './record-without-readings.ts';
import { splitRecord } from './split-record.ts';

export interface SavedRecord {
  /** False when a burn of this identity was there already: then nothing was changed. */
  created: boolean;
  /** Things in the inventory that the record describes otherwise than they stand there; the inventory was left as it is. */
  differing: { kind: DocumentKind; id: string }[];
}

/** Takes a whole burn record in, all of it or none. The record must be valid (see `recordFaults`). */
export async function saveRecord(store: Store, record: BurnRecord): Promise<SavedRecord> {
  if (store.documents.get('burn', record.id)) return { created: false, differing: [] };
  const parts = splitRecord(record);
  const inventory = inventoryDocuments(parts.record);
  const differing = inventory.filter(({ kind, id, body }) => {
    const there = store.documents.get(kind, id);
    return there && JSON.stringify(there.body) !== JSON.stringify(body);
  });
  const { burns, pages } = incomingBurns([parts]);
  await saveScans(store, new Map([[0, record.id]]), pages);
  store.together(() => saveNewBurn(store, burns[0]!));
  store.checkpoint();
  return { created: true, differing: differing.map(({ kind, id }) => ({ kind, id })) };
}

/**
 * The scans, page by page. Nobody sees them before their burn is stated, so that an import cut short at any moment leaves nothing behind.
 * @param underIds by place of the burn, under which its scans are saved; those of any other are passed over
 */
export async function saveScans(
  store: Store,
  underIds: ReadonlyMap<number, string>,
  pages: IncomingBurns['pages'],
): Promise<void> {
  for (const id of underIds.values()) store.expectBurn(id);
  try {
    for await (const { burn, boardId, columns } of pages) {
      const id = underIds.get(burn);
      if (id !== undefined) await store.scans.appendMany(id, boardId, readScans(columns));
    }
  } catch (error) {
    for (const id of underIds.values()) store.removeBurn(id);
    throw error;
  }
}

/** Everything that is stated of a burn that was not there. To be called inside `store.together`. */
export function saveNewBurn(store: Store, { record, lastUs, curve }: IncomingBurn): void {
  for (const document of inventoryDocuments(record)) create(store, document);
  create(store, burnDocument(record, lastUs));
  for (const document of entryDocuments(record)) create(store, document, record.id);
  for (const gap of record.gaps ?? []) store.gaps.add(record.id, gap);
  saveSmallCurve(store, record.id, curve);
}

/** Draws the small curve of a burn anew, after readings were added to it. */
export async function redrawSmallCurve(store: Store, burnId: string): Promise<void> {
  const boards = await readBoardsInTurns(store, burnId);
  saveSmallCurve(store, burnId, smallCurve(assembleRecord(recordWithoutReadings(store, burnId), boards.map(thinned))));
}

function create<K extends DocumentKind>(store: Store, document: RecordDocument<K>, burnId?: string): void {
  const { kind, id, body, by } = document;
  store.documents.create(kind, { id, body, by, burnId });
}

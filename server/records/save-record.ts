import { setImmediate as nextTurn } from 'node:timers/promises';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { saveSmallCurve } from '../curves/small-curve.ts';
import { readScans } from '../store/scan-columns.ts';
import type { DocumentKind, Store } from '../store/store.ts';
import { readBoardsInTurns } from './board-readings.ts';
import { curveOf, type IncomingBurn, type IncomingBurns, incomingBurns } from './incoming-burns.ts';
import { burnDocument, entryDocuments, inventoryDocuments, type RecordDocument } from './record-documents.ts';
import { recordWithoutReadings } from './record-without-readings.ts';
import { splitRecord } from './split-record.ts';

export interface SavedRecord {
  /** False when a burn of this identity already existed: then nothing was changed. */
  created: boolean;
  /** Inventory documents that the record describes differently; the inventory was left unchanged. */
  differing: { kind: DocumentKind; id: string }[];
}

/** Saves a whole burn record, all of it or none. The record must be valid (see `recordFaults`). */
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
 * Saves the scans, page by page. They are not visible before the documents of their burn are saved, so that an import
 * that is interrupted leaves nothing behind.
 * @param underIds by index of the burn, the id under which its scans are saved; scans of other burns are skipped
 */
export async function saveScans(
  store: Store,
  underIds: ReadonlyMap<number, string>,
  pages: IncomingBurns['pages'],
): Promise<void> {
  for (const id of underIds.values()) store.expectBurn(id);
  try {
    for await (const page of pages) {
      const id = underIds.get(page.burn);
      if (id === undefined) continue;
      if ('columns' in page) await store.scans.appendMany(id, page.boardId, readScans(page.columns));
      else {
        store.scans.appendBlock(id, page.boardId, page.block);
        await nextTurn();
      }
    }
  } catch (error) {
    for (const id of underIds.values()) store.removeBurn(id);
    throw error;
  }
}

/** Saves all documents of a burn that did not exist. Must be called inside `store.together`. */
export function saveNewBurn(store: Store, { record, lastUs, curve }: IncomingBurn): void {
  for (const document of inventoryDocuments(record)) create(store, document);
  create(store, burnDocument(record, lastUs));
  for (const document of entryDocuments(record)) create(store, document, record.id);
  for (const gap of record.gaps ?? []) store.gaps.add(record.id, gap);
  saveSmallCurve(store, record.id, curve);
}

/** Recomputes the small curve of a burn after readings were added to it. */
export async function redrawSmallCurve(store: Store, burnId: string): Promise<void> {
  const boards = await readBoardsInTurns(store, burnId);
  saveSmallCurve(store, burnId, curveOf(recordWithoutReadings(store, burnId), boards));
}

function create<K extends DocumentKind>(store: Store, document: RecordDocument<K>, burnId?: string): void {
  const { kind, id, body, by } = document;
  store.documents.create(kind, { id, body, by, burnId });
}

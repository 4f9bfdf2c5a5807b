import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { saveSmallCurve, smallCurve } from '../curves/small-curve.ts';
import { everyNth, readScans } from '../store/scan-columns.ts';
import type { DocumentKind, Store } from '../store/store.ts';
import { type BoardReadings, readBoardsInTurns } from './board-readings.ts';
import { assembleRecord } from './burn-record.ts';
import { burnDocument, entryDocuments, inventoryDocuments, type RecordDocument } from './record-documents.ts';
import { recordWithoutReadings } from './record-without-readings.ts';
import { type RecordParts, splitRecord } from './split-record.ts';

const MOST_SCANS_OF_SKETCH = 10_000;

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
  await saveScans(store, record.id, parts);
  store.together(() => saveNewBurn(store, parts));
  store.checkpoint();
  return { created: true, differing: differing.map(({ kind, id }) => ({ kind, id })) };
}

/**
 * The scans, in large transactions. Nobody sees them before their burn is stated, so that an import cut short at any
 * moment leaves nothing behind.
 */
export async function saveScans(store: Store, underId: string, { boards }: RecordParts): Promise<void> {
  store.expectBurn(underId);
  try {
    for (const { boardId, columns } of boards) await store.scans.appendMany(underId, boardId, readScans(columns));
  } catch (error) {
    store.removeBurn(underId);
    throw error;
  }
}

/** Everything that is stated of a burn that was not there. To be called inside `store.together`. */
export function saveNewBurn(store: Store, parts: RecordParts): void {
  const { record } = parts;
  for (const document of inventoryDocuments(record)) create(store, document);
  create(store, burnDocument(record, lastUs(parts)));
  for (const document of entryDocuments(record)) create(store, document, record.id);
  for (const gap of record.gaps ?? []) store.gaps.add(record.id, gap);
  saveSmallCurve(store, record.id, smallCurve(assembleRecord(record, parts.boards.map(thinned))));
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

function lastUs({ boards }: RecordParts): number {
  return Math.max(0, ...boards.map(({ columns }) => columns.elapsedUs.at(-1) ?? 0));
}

/** Enough scans for a curve of a few dozen points; all of a long burn would hold up everything else. */
function thinned({ boardId, columns }: BoardReadings): BoardReadings {
  const step = Math.ceil(columns.elapsedUs.length / MOST_SCANS_OF_SKETCH);
  return step <= 1 ? { boardId, columns } : { boardId, columns: everyNth(columns, step) };
}

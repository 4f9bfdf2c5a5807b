/** What a file brings beside what is here: found, not yet done. */
import type { ImportItem } from '../../shared/contract/imports.ts';
import { AppError } from '../base/app-error.ts';
import { canonicalJson } from '../exports/canonical-json.ts';
import {
  burnDocument,
  type EntryDocumentKind,
  entryDocuments,
  inventoryDocuments,
  type RecordDocument,
  withoutPressure,
} from '../records/record-documents.ts';
import { type RecordWithoutReadings, recordWithoutReadings } from '../records/record-without-readings.ts';
import type { RecordParts } from '../records/split-record.ts';
import type { DocumentKind, DocumentOf, Store } from '../store/store.ts';
import { compareReadings } from './compare-readings.ts';

const bothChoices: ImportItem['choices'] = ['mine', 'theirs'];

/**
 * Every thing in the records, by identity: new here, the same, or different.
 * @param onProgress burns looked at, and all of them
 * @throws AppError import/burn-running, burn/already-there
 */
export async function planMerge(
  store: Store,
  records: readonly RecordParts[],
  onProgress?: (done: number, of: number) => void,
): Promise<ImportItem[]> {
  const items: ImportItem[] = [];
  for (const [index, parts] of records.entries()) {
    items.push(...inventoryItems(store, parts.record), ...(await burnItems(store, parts)));
    onProgress?.(index + 1, records.length);
  }
  // Burns of one file share their stove, and each brings it along.
  return [...new Map(items.map((item) => [`${item.kind} ${item.id}`, item])).values()];
}

function inventoryItems(store: Store, record: RecordWithoutReadings): ImportItem[] {
  return inventoryDocuments(record).map(({ kind, id, body }) => {
    const there = store.documents.get(kind, id)?.body;
    const mine = there && kind === 'place' ? withoutPressure(there as DocumentOf<'place'>) : there;
    return item(kind, id, inventoryName(body), mine, body);
  });
}

async function burnItems(store: Store, parts: RecordParts): Promise<ImportItem[]> {
  const { record, boards } = parts;
  const there = store.documents.get('burn', record.id);
  const theirs = statedOfBurn(record);
  const entries = entryDocuments(record);
  const named = { kind: 'burn' as const, id: record.id, name: record.title };
  if (!there) {
    for (const entry of entries) requireFree(store, entry, record.id);
    const readings = { ...named, kind: 'readings' as const, state: 'new' as const, burnId: record.id };
    return [
      { ...named, state: 'new' },
      readings,
      ...entries.map((entry) => ({ ...entryItem(entry), burnId: record.id, state: 'new' as const })),
    ];
  }
  if (there.body.status === 'running') throw new AppError('import/burn-running', { title: there.body.title });
  const mine = recordWithoutReadings(store, record.id);
  return [
    item('burn', record.id, record.title, statedOfBurn(mine), theirs),
    { ...named, burnId: record.id, ...(await readingsItem(store, record.id, boards)) },
    ...entries.map((entry) => {
      requireFree(store, entry, record.id);
      const stored = store.documents.get(entry.kind, entry.id);
      const body = stored && (stored.withdrawn ? null : stored.body);
      return { ...item(entry.kind, entry.id, entryName(entry), body, entry.body), burnId: record.id };
    }),
    ...takenBackThere(store, record, entries),
  ];
}

/** A mark that is here and not in the file was made here since, unless the file's trail says that it was taken back there. */
function takenBackThere(
  store: Store,
  record: RecordWithoutReadings,
  entries: readonly RecordDocument<EntryDocumentKind>[],
): ImportItem[] {
  const inFile = new Set(entries.map(({ id }) => id));
  const lastEdit = new Map((record.edits ?? []).map((edit) => [edit.id, edit]));
  return (['mark', 'weighing', 'exclusion'] as const).flatMap((kind) =>
    store.documents
      .ofBurn(kind, record.id)
      .filter(({ id, withdrawn }) => !withdrawn && !inFile.has(id) && lastEdit.get(id)?.after === null)
      .map(({ id, body }) => ({ ...item(kind, id, entryName({ kind, body }), body, null), burnId: record.id })),
  );
}

async function readingsItem(store: Store, burnId: string, boards: RecordParts['boards']) {
  const { mine, theirs, onlyTheirs, onlyMine, contradicting } = await compareReadings(store, burnId, boards);
  const kind = 'readings' as const;
  if (onlyTheirs + onlyMine + contradicting === 0) return { kind, state: 'same' as const };
  // Readings that are here are never replaced; those that are missing here can be added.
  const choices: ImportItem['choices'] = onlyTheirs > 0 && contradicting === 0 ? bothChoices : ['mine'];
  return {
    kind,
    state: 'differs' as const,
    mine: { scans: mine, onlyHere: onlyMine, contradicting },
    theirs: { scans: theirs, onlyThere: onlyTheirs, contradicting },
    choices,
  };
}

/** The burn as it is stated, with neither its trail nor where its readings happen to lie. */
function statedOfBurn(record: RecordWithoutReadings): object {
  const { edits: _trail, endedElapsedUs: _ended, ...others } = burnDocument(record, 0).body;
  const channels = others.channels.map(({ boardId: _board, index: _index, ...channel }) => channel);
  return { ...others, channels };
}

/** @param mine undefined when there is none, null when it was taken back */
function item(
  kind: ImportItem['kind'],
  id: string,
  name: string,
  mine: object | null | undefined,
  theirs: object | null,
): ImportItem {
  const named = { kind, id, name };
  if (mine === undefined) return { ...named, state: 'new' };
  if (canonicalJson(mine) === canonicalJson(theirs)) return { ...named, state: 'same' };
  return {
    ...named,
    state: 'differs',
    mine: mine as NonNullable<ImportItem['mine']>,
    theirs: theirs as NonNullable<ImportItem['theirs']>,
    choices: bothChoices,
  };
}

function entryItem(entry: RecordDocument<EntryDocumentKind>): Pick<ImportItem, 'kind' | 'id' | 'name'> {
  return { kind: entry.kind, id: entry.id, name: entryName(entry) };
}

function entryName({ body }: Pick<RecordDocument<EntryDocumentKind>, 'kind' | 'body'>): string {
  if ('kind' in body) return body.kind;
  return 'of' in body ? `${body.of} ${body.when}` : body.reason;
}

function inventoryName(body: object): string {
  return 'name' in body ? String(body.name) : 'label' in body ? String(body.label) : '';
}

/** @throws AppError burn/already-there when the identifier stands for something of another burn */
function requireFree(store: Store, { kind, id }: { kind: DocumentKind; id: string }, burnId: string): void {
  const there = store.documents.get(kind, id);
  if (there && there.burnId !== burnId) throw new AppError('burn/already-there', { kind, id });
}

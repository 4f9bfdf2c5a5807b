/** Brings the burns of a file in: all of it or nothing. */

import type { ImportChoice, ImportDecision, ImportItem, ImportOutcome } from '../../shared/contract/imports.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import { AppError } from '../base/app-error.ts';
import { canonicalJson } from '../exports/canonical-json.ts';
import type { IncomingBurn, IncomingBurns } from '../records/incoming-burns.ts';
import { burnDocument, entryDocuments, inventoryDocuments } from '../records/record-documents.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { redrawSmallCurve, saveNewBurn, saveScans } from '../records/save-record.ts';
import type { DocumentKind, DocumentOf, Store } from '../store/store.ts';

export interface MergeOptions {
  decisions?: readonly ImportDecision[];
  /** For everything that differs and is not decided one by one. */
  otherwise?: ImportChoice | undefined;
  by?: string | undefined;
  /** Identifiers for readings that wait to be added to a burn that is here. */
  newId(): string;
}

/** The burns of a file with how each thing in them stands to what is here. */
export interface PlannedImport extends IncomingBurns {
  items: readonly ImportItem[];
}

/**
 * @throws AppError import/differs with the undecided items in its details when the file and this bench differ and nobody
 *   said which is to stay. Nothing has changed then.
 */
export async function merge(
  store: Store,
  { burns, items, pages }: PlannedImport,
  options: MergeOptions,
): Promise<ImportOutcome> {
  const takes = decide(items, options);
  const staged = new Map<number, string>();
  for (const [place, { record }] of burns.entries()) {
    const { state } = find(items, 'readings', record.id);
    // Beside a burn that is here they wait under an identifier of their own.
    if (state === 'new') staged.set(place, record.id);
    else if (takes('readings', record.id)) staged.set(place, options.newId());
  }
  try {
    if (staged.size > 0) await saveScans(store, staged, pages);
    const changed = store.together(() =>
      burns.flatMap((burn, place) => apply(store, burn, items, takes, staged.get(place), options)),
    );
    for (const { kind, id } of changed) if (kind === 'readings') await redrawSmallCurve(store, id);
    return outcome(burns, items, changed);
  } finally {
    // A burn that has come to be is no longer only waiting for its readings.
    for (const id of staged.values()) if (!store.documents.get('burn', id)) store.removeBurn(id);
    if (staged.size > 0) store.checkpoint();
  }
}

type Takes = (kind: ImportItem['kind'], id: string) => boolean;
type Changed = ImportOutcome['changed'][number];

/** @throws AppError import/differs */
function decide(items: readonly ImportItem[], { decisions = [], otherwise }: MergeOptions): Takes {
  const key = (kind: string, id: string) => `${kind} ${id}`;
  const given = new Map(decisions.map(({ kind, id, take }) => [key(kind, id), take]));
  const taken = new Set<string>();
  const undecided: ImportItem[] = [];
  for (const item of items.filter(({ state }) => state === 'differs')) {
    const choice = given.get(key(item.kind, item.id)) ?? otherwise;
    if (item.choices?.length === 1) continue;
    if (choice === undefined) undecided.push(item);
    if (choice === 'theirs') taken.add(key(item.kind, item.id));
  }
  if (undecided.length > 0)
    throw new AppError('import/differs', { count: undecided.length }, { details: { items: undecided } });
  return (kind, id) => taken.has(key(kind, id));
}

/**
 * @param waiting under which its readings wait to be added to a burn that is here
 * @returns what was changed that had been here
 */
function apply(
  store: Store,
  burn: IncomingBurn,
  items: readonly ImportItem[],
  takes: Takes,
  waiting: string | undefined,
  { by }: MergeOptions,
): Changed[] {
  const { record } = burn;
  const changed: Changed[] = [];
  const revise = <K extends DocumentKind>(kind: K & ImportItem['kind'], id: string, body: DocumentOf<K> | null) => {
    const { version: expectedVersion } = store.documents.get(kind, id)!;
    if (body === null) store.documents.withdraw(kind, id, { expectedVersion, by });
    else store.documents.revise(kind, id, { expectedVersion, body, by });
    changed.push({ kind, id });
  };

  for (const { kind, id, body } of inventoryDocuments(record)) {
    const there = store.documents.get(kind, id);
    if (!there) store.documents.create(kind, { id, body, by });
    // The usual pressure of a place is no part of what a record says of it.
    else if (takes(kind, id)) revise(kind, id, kind === 'place' ? { ...pressureOf(there.body), ...body } : body);
  }
  if (find(items, 'burn', record.id).state === 'new') {
    saveNewBurn(store, burn);
    return changed;
  }

  if (waiting !== undefined) {
    store.scans.copyFrom(waiting, record.id);
    const known = new Set(store.gaps.list(record.id).map(canonicalJson));
    for (const gap of record.gaps ?? []) if (!known.has(canonicalJson(gap))) store.gaps.add(record.id, gap);
    changed.push({ kind: 'readings', id: record.id });
  }
  const incoming = entryDocuments(record);
  for (const { kind, id, body } of incoming) {
    if (!store.documents.get(kind, id)) {
      store.documents.create(kind, { id, body, burnId: record.id, by });
      changed.push({ kind, id });
    } else if (takes(kind, id)) revise(kind, id, body);
  }
  for (const { kind, id, burnId, theirs } of items) {
    const takenBack = theirs === null && burnId === record.id && takes(kind, id);
    if (takenBack && (kind === 'mark' || kind === 'weighing' || kind === 'exclusion')) revise(kind, id, null);
  }
  const body = mergedBurn(store, record, takes, waiting !== undefined, new Set(changed.map(({ id }) => id)));
  if (body) revise('burn', record.id, body);
  return changed;
}

/** The burn as it is to be, or undefined when it stays as it is. */
function mergedBurn(
  store: Store,
  record: RecordWithoutReadings,
  takes: Takes,
  readingsCame: boolean,
  touched: ReadonlySet<string>,
): DocumentOf<'burn'> | undefined {
  const mine = store.documents.get('burn', record.id)!.body;
  const theirs = burnDocument(record, 0).body;
  const base = takes('burn', record.id) ? theirs : mine;
  const mineById = new Map(mine.channels.map((channel) => [channel.id, channel]));
  const channels = base.channels.map((channel) => {
    const { boardId, index } = mineById.get(channel.id) ?? channel;
    const { boardId: _board, index: _index, ...rest } = channel;
    return { ...rest, ...(boardId !== undefined && { boardId }), ...(index !== undefined && { index }) };
  });
  const added = readingsCame ? theirs.channels.filter(({ id }) => !base.channels.some((there) => there.id === id)) : [];
  const edits = [...(mine.edits ?? []), ...newEdits(store, record, touched, takes)];
  const merged: DocumentOf<'burn'> = {
    ...base,
    channels: [...channels, ...added],
    ...(mine.endedElapsedUs !== undefined && { endedElapsedUs: mine.endedElapsedUs }),
    ...(edits.length > 0 && { edits }),
  };
  return canonicalJson(merged) === canonicalJson(mine) ? undefined : merged;
}

/** What the file's trail says about the things that were taken over from it. */
function newEdits(store: Store, record: RecordWithoutReadings, touched: ReadonlySet<string>, takes: Takes) {
  const known = new Set([...(store.documents.get('burn', record.id)!.body.edits ?? []).map(canonicalJson)]);
  return (record.edits ?? []).filter((edit) => {
    const { id = '' } = edit;
    const concerns = touched.has(id) || (id === record.id && takes('burn', id));
    return concerns && !known.has(canonicalJson(edit));
  });
}

function pressureOf(body: object): object {
  const { stationPressurePa, standardUncertaintyPa } = body as DocumentOf<'place'>;
  return withoutUndefined({ stationPressurePa, standardUncertaintyPa });
}

function outcome(incoming: readonly IncomingBurn[], items: readonly ImportItem[], changed: Changed[]): ImportOutcome {
  const created = items.filter(({ state }) => state === 'new').map(({ kind, id }) => ({ kind, id }));
  const isNew = new Set(created.map(({ kind, id }) => `${kind} ${id}`));
  return {
    burns: incoming.map(({ record: { id, title } }) => {
      const touched = items.some(
        (item) =>
          (item.burnId === id || item.id === id) && changed.some((c) => c.kind === item.kind && c.id === item.id),
      );
      return { id, title, state: isNew.has(`burn ${id}`) ? 'new' : touched ? 'changed' : 'same' };
    }),
    created,
    changed: changed.filter(({ kind, id }) => !isNew.has(`${kind} ${id}`)),
  };
}

function find(items: readonly ImportItem[], kind: ImportItem['kind'], id: string): ImportItem {
  return items.find((item) => item.kind === kind && item.id === id)!;
}

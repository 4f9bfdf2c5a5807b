import { createHash } from 'node:crypto';
import type { BurnRecord, Gap, Place } from '../../shared/contract/burn-record.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import type { DocumentKind, DocumentOf, Store, StoredDocument } from '../store/store.ts';
import { auditTrail } from './audit.ts';
import { findBurn } from './versioned-documents.ts';

/** A burn record without its readings: small, and consisting only of what a person entered. */
export type RecordWithoutReadings = Omit<BurnRecord, 'readings'>;

/** A version of something in the inventory that a burn refers to; version 0 of what is not there. */
export interface UsedDocument {
  kind: DocumentKind;
  id: string;
  version: number;
}

/** @throws AppError burn/not-found */
export function recordWithoutReadings(store: Store, burnId: string): RecordWithoutReadings {
  return withInventory(store, burnId).record;
}

function withInventory(store: Store, burnId: string): Omit<StatedBurn, 'stamp'> {
  const { documents } = store;
  const inventory: UsedDocument[] = [];
  function bodyOf<K extends DocumentKind>(kind: K, id: string | undefined): DocumentOf<K> | undefined {
    if (id === undefined) return undefined;
    const document = documents.get(kind, id);
    inventory.push({ kind, id, version: document?.version ?? 0 });
    return document?.body;
  }
  const { body: burn } = findBurn(store, burnId);
  const { revisionId, vesselId, placeId, fuelLotIds, scaleIds, ...given } = burn;
  const {
    endedElapsedUs: _ended,
    stationPressurePa: _pressure,
    standardUncertaintyPa: _uncertainty,
    edits: editsElsewhere = [],
    ...described
  } = given;
  const revision = bodyOf('revision', revisionId);
  const history = documents.historyOfBurn(burnId);
  const [marks, weighings] = [newest(history, 'mark'), newest(history, 'weighing')];
  const entries = [...marks, ...weighings];

  const record = withoutUndefined({
    format: 'stovebench-burn-record' as const,
    version: 1 as const,
    ...described,
    stove: bodyOf('stove', revision?.stoveId),
    revision,
    vessel: bodyOf('vessel', vesselId),
    place: placeOf(burn, bodyOf('place', placeId)),
    fuelLots: named('fuelLotId', fuelLotIds, entries).flatMap((id) => bodyOf('fuelLot', id) ?? []),
    scales: named('scaleId', scaleIds, entries).flatMap((id) => bodyOf('scale', id) ?? []),
    gaps: allGaps(store, burnId),
    exclusions: standing(newest(history, 'exclusion')),
    marks: standing(marks).sort((a, b) => a.elapsedUs - b.elapsedUs),
    weighings: standing(weighings),
    edits: [...editsElsewhere, ...auditTrail(history)],
  });
  return { record, inventory };
}

/** The place with the pressure of the day, where it was read. */
function placeOf(burn: DocumentOf<'burn'>, place: Place | undefined): Place | undefined {
  const { stationPressurePa, standardUncertaintyPa } = burn;
  if (stationPressurePa === undefined) return place;
  const {
    stationPressurePa: _usual,
    standardUncertaintyPa: _usually,
    ...rest
  } = place ?? ({ id: burn.id, name: burn.title } as Place);
  return { ...rest, stationPressurePa, ...(standardUncertaintyPa !== undefined && { standardUncertaintyPa }) };
}

/** Scans being fetched count as missing until they arrive. */
function allGaps(store: Store, burnId: string): Gap[] {
  const open = store.gaps.open(burnId).map(({ boardId, fromUs, toUs, cause }) => ({
    ...(boardId !== undefined && { boardId }),
    fromUs,
    toUs,
    cause,
  }));
  return [...store.gaps.list(burnId), ...open].sort((a, b) => a.fromUs - b.fromUs);
}

interface StatedBurn {
  record: RecordWithoutReadings;
  /** What of the inventory the record was put together from. */
  inventory: readonly UsedDocument[];
  stamp: string;
}

const MOST_STATED = 400;
const statedOf = new WeakMap<Store, Map<string, StatedBurn & { changes: string }>>();

/**
 * The documents of a burn and their stamp, cached until something is written: comparisons and lists request the same
 * burns repeatedly. The returned object is shared and must not be changed.
 * @throws AppError burn/not-found
 */
export function statedBurn(store: Store, burnId: string): Readonly<StatedBurn> {
  const remembered = statedOf.get(store) ?? new Map();
  statedOf.set(store, remembered);
  const changes = store.changesOf(burnId);
  const known = remembered.get(burnId);
  remembered.delete(burnId);
  const stated = known && known.changes === changes ? known : withStamp(store, burnId);
  if (changes !== undefined) remembered.set(burnId, { ...stated, changes });
  // The least recently used entry is removed first.
  for (const [oldest] of remembered) {
    if (remembered.size <= MOST_STATED) break;
    remembered.delete(oldest);
  }
  return stated;
}

function withStamp(store: Store, burnId: string): StatedBurn {
  const stated = withInventory(store, burnId);
  return { ...stated, stamp: stampOf(store, burnId, stated.record) };
}

/** A stamp that changes with every change of the documents or the readings of the burn. */
export function stampOf(store: Store, burnId: string, given: object): string {
  const scans = store.scans.boards(burnId).map((boardId) => [boardId, store.scans.count(burnId, boardId)]);
  return createHash('sha256')
    .update(JSON.stringify([given, scans]))
    .digest('base64url');
}

/** Documents on the burn's own list, and those to which only its feeds and weighings refer. */
function named(
  key: 'fuelLotId' | 'scaleId',
  listed: readonly string[],
  entries: readonly { body: object }[],
): string[] {
  const fromEntries = entries.flatMap(({ body }) => (key in body ? ((body as Record<string, string>)[key] ?? []) : []));
  return [...new Set([...listed, ...fromEntries])];
}

/** The newest version of each, in the order they were made. @param history in the order it was written */
function newest<K extends DocumentKind>(
  history: readonly StoredDocument<DocumentKind>[],
  kind: K,
): StoredDocument<K>[] {
  const ofKind = history.filter((version): version is StoredDocument<K> => version.kind === kind);
  return [...new Map(ofKind.map((version) => [version.id, version])).values()];
}

function standing<K extends DocumentKind>(entries: StoredDocument<K>[]): StoredDocument<K>['body'][] {
  return entries.filter(({ withdrawn }) => !withdrawn).map(({ body }) => body);
}

/** The contents of a record, as the documents in which they are stored. */
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { DocumentKind, DocumentOf } from '../store/store.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';

export type InventoryDocumentKind = 'stove' | 'revision' | 'vessel' | 'place' | 'fuelLot' | 'scale';
export type EntryDocumentKind = 'mark' | 'weighing' | 'exclusion';

export interface RecordDocument<K extends DocumentKind> {
  kind: K;
  id: string;
  body: DocumentOf<K>;
  by?: string | undefined;
}

/** Inventory documents, in the order of their references to each other. */
export function inventoryDocuments(record: RecordWithoutReadings): RecordDocument<InventoryDocumentKind>[] {
  const { stove, revision, vessel, place, fuelLots, scales = [] } = record;
  const documents = <K extends InventoryDocumentKind>(kind: K, body: DocumentOf<K> | undefined): RecordDocument<K>[] =>
    body ? [{ kind, id: body.id, body }] : [];
  return [
    ...documents('stove', stove),
    ...documents('revision', revision),
    ...documents('vessel', vessel),
    ...documents('place', place && withoutPressure(place)),
    ...fuelLots.flatMap((lot) => documents('fuelLot', lot)),
    ...scales.flatMap((scale) => documents('scale', scale)),
  ];
}

/** The pressure of a day belongs to the burn, not to the place. */
export function withoutPressure(place: DocumentOf<'place'>): DocumentOf<'place'> {
  const { stationPressurePa: _pressure, standardUncertaintyPa: _uncertainty, ...rest } = place;
  return rest;
}

/** Marks, weighings and excluded stretches. */
export function entryDocuments(record: RecordWithoutReadings): RecordDocument<EntryDocumentKind>[] {
  const { marks, weighings, exclusions = [] } = record;
  return [
    ...marks.map((body) => ({ kind: 'mark' as const, id: body.id, body, by: body.by })),
    ...weighings.map((body) => ({ kind: 'weighing' as const, id: body.id, body })),
    ...exclusions.map((body) => ({ kind: 'exclusion' as const, id: body.id, body })),
  ];
}

/**
 * The burn itself.
 * @param lastUs the last moment that anything was read
 */
export function burnDocument(record: RecordWithoutReadings, lastUs: number): RecordDocument<'burn'> {
  const { format, version, stove, revision, vessel, place, fuelLots, scales, ...rest } = record;
  const { gaps, exclusions, marks, weighings, ...given } = rest satisfies Partial<BurnRecord>;
  const body: DocumentOf<'burn'> = {
    ...given,
    ...(revision && { revisionId: revision.id }),
    ...(vessel && { vesselId: vessel.id }),
    ...(place && { placeId: place.id }),
    ...(place?.stationPressurePa !== undefined && { stationPressurePa: place.stationPressurePa }),
    ...(place?.standardUncertaintyPa !== undefined && { standardUncertaintyPa: place.standardUncertaintyPa }),
    fuelLotIds: fuelLots.map(({ id }) => id),
    scaleIds: (scales ?? []).map(({ id }) => id),
    ...(given.status !== 'planned' && {
      endedElapsedUs: Math.max(0, lastUs, ...marks.map(({ elapsedUs }) => elapsedUs)),
    }),
  };
  return { kind: 'burn', id: record.id, body, by: record.operator };
}

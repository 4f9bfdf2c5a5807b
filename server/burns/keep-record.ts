import type { BurnRecord, FaultCode, Readings } from '../../shared/contract/burn-record.ts';
import type { DocumentKind, DocumentOf, Scan, Store } from '../store/store.ts';
import { smallCurve } from './small-curve.ts';
import { keepSmallCurve } from './small-curves.ts';

export interface KeptRecord {
  /** False when a burn of this identity was there already: then nothing was changed. */
  created: boolean;
  /** Things on the shelf that the record describes otherwise than they stand there; the shelf was left as it is. */
  differing: { kind: DocumentKind; id: string }[];
}

/**
 * Takes a whole burn record in: what is stated as documents, readings as scans in large transactions. All of it or none.
 */
export async function keepRecord(store: Store, record: BurnRecord): Promise<KeptRecord> {
  if (store.documents.get('burn', record.id)) return { created: false, differing: [] };
  const differing = store.together(() => keepStated(store, record));
  try {
    for (const readings of record.readings) {
      await store.scans.appendMany(record.id, readings.boardId ?? record.id, scansOf(readings));
    }
    keepSmallCurve(store, record.id, smallCurve(record));
  } catch (error) {
    store.removeBurn(record.id);
    throw error;
  }
  store.settle();
  return { created: true, differing };
}

function keepStated(store: Store, record: BurnRecord): KeptRecord['differing'] {
  const { documents, gaps } = store;
  const differing: KeptRecord['differing'] = [];
  const shelve = <K extends DocumentKind>(kind: K, body: (DocumentOf<K> & { id: string }) | undefined) => {
    if (!body) return;
    const { document, created } = documents.create(kind, { id: body.id, body });
    if (!created && JSON.stringify(document.body) !== JSON.stringify(body)) differing.push({ kind, id: body.id });
  };
  const burnId = record.id;
  shelve('stove', record.stove);
  shelve('revision', record.revision);
  shelve('vessel', record.vessel);
  shelve('place', record.place && withoutPressure(record.place));
  for (const lot of record.fuelLots) shelve('fuelLot', lot);
  for (const scale of record.scales ?? []) shelve('scale', scale);
  documents.create('burn', { id: burnId, body: burnBody(record), by: record.operator });
  for (const mark of record.marks) documents.create('mark', { id: mark.id, burnId, body: mark, by: mark.by });
  for (const weighing of record.weighings) documents.create('weighing', { id: weighing.id, burnId, body: weighing });
  for (const exclusion of record.exclusions ?? [])
    documents.create('exclusion', { id: exclusion.id, burnId, body: exclusion });
  for (const gap of record.gaps ?? []) gaps.add(burnId, gap);
  return differing;
}

/** The pressure of a day belongs to the burn, not to the place. */
function withoutPressure(place: NonNullable<BurnRecord['place']>): DocumentOf<'place'> {
  const { stationPressurePa: _pressure, standardUncertaintyPa: _uncertainty, ...rest } = place;
  return rest;
}

function burnBody(record: BurnRecord): DocumentOf<'burn'> {
  const { format, version, stove, revision, vessel, place, fuelLots, scales, channels, readings, ...rest } = record;
  const { gaps, exclusions, marks, weighings, edits, ...said } = rest;
  const lastUs = Math.max(0, ...readings.map(({ elapsedUs }) => elapsedUs.at(-1) ?? 0));
  return {
    ...said,
    ...(revision && { revisionId: revision.id }),
    ...(vessel && { vesselId: vessel.id }),
    ...(place && { placeId: place.id }),
    ...(place?.stationPressurePa !== undefined && { stationPressurePa: place.stationPressurePa }),
    ...(place?.standardUncertaintyPa !== undefined && { standardUncertaintyPa: place.standardUncertaintyPa }),
    fuelLotIds: fuelLots.map(({ id }) => id),
    scaleIds: (scales ?? []).map(({ id }) => id),
    channels: readings.flatMap((board) => placed(board, record)),
    ...(said.status !== 'planned' && { endedElapsedUs: lastUs }),
  };
}

/** A record names channels in its columns; here a channel is known by its board and its place in the scan. */
function placed(readings: Readings, record: BurnRecord): BurnRecord['channels'] {
  const boardId = readings.boardId ?? record.id;
  return readings.columns.flatMap(({ channelId }, index) => {
    const channel = record.channels.find(({ id }) => id === channelId);
    return channel ? [{ ...channel, boardId, index }] : [];
  });
}

function* scansOf(readings: Readings): Generator<Scan> {
  const faults = readings.columns.map((column) => new Map<number, FaultCode>(column.faults ?? []));
  for (let place = 0; place < readings.elapsedUs.length; place++) {
    const elapsedUs = readings.elapsedUs[place]!;
    yield {
      boot: readings.boot?.[place] ?? 0,
      sequence: readings.sequence?.[place] ?? place,
      // A record carries no board's clock; the burn's own stands in for it.
      uptimeMs: Math.max(0, Math.round(elapsedUs / 1000)),
      elapsedUs,
      arrivedUs: elapsedUs,
      readings: readings.columns.map(({ counts }, column) => faults[column]!.get(place) ?? counts[place] ?? null),
    };
  }
}

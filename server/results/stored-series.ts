/** The curves of a stored burn; those of a long one are drawn from rows of extremes. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { BurnRecord, Channel } from '../../shared/contract/burn-record.ts';
import type { Series } from '../../shared/contract/series.ts';
import { type BoardRows, coarseCurves, commonPauses, meansRecord } from '../curves/coarse-curves.ts';
import {
  curveOfProbe,
  probeCurves,
  type SeriesRequest,
  type Span,
  seriesFrom,
  seriesOf,
  waterCurves,
  windowOf,
} from '../curves/series.ts';
import type { Window } from '../curves/thin-curve.ts';
import { readChannels, withColdJunctions } from '../records/board-readings.ts';
import { assembleRecord, readStoredRecord } from '../records/burn-record.ts';
import { handReadings } from '../records/hand-readings.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';

/** Readings of which curves are drawn from the scans, and that are held in memory at once. */
const READINGS_AT_ONCE = 500_000;
/** The rate of the water is that over 40 s: in a day a row takes in half of that. */
const ROWS_FOR_WATER = 4000;
/** Fewer scans in a row cost as much as the scans themselves. */
const SCANS_PER_ROW = 40;

/** The series that `seriesOf` computes from the whole record; of a long burn as far as a column of the chart shows it. */
export async function storedSeries(
  store: Store,
  record: RecordWithoutReadings,
  request: SeriesRequest,
  readingsAtOnce = READINGS_AT_ONCE,
): Promise<Series> {
  if (groupsOf(store, record, readingsAtOnce).length <= 1)
    return seriesOf(await readStoredRecord(store, record), request);
  const whole = windowOf({ points: request.points }, spansOf(store, record));
  const window = windowOf(request, [whole]);
  const probes = coarseCurves(record, await rowsIn(store, record, window), window);
  const ofWater = record.channels.filter(({ role }) => role === 'water' || role === 'stationPressure');
  const pauses = commonPauses(probes.filter(({ channel }) => channel.role === 'water').map((probe) => probe.pauses));
  const isClear = probes.every((probe) => probe.isClear || !ofWater.includes(probe.channel));
  const water = isClear
    ? waterCurves(meansRecord(record, await rowsForWater(store, record, whole, window)), window, pauses)
    : waterCurves(await readExactly(store, record, ofWater), window);
  const found = new Map(probeCurves(assembleRecord(record, []), window).map((curve) => [curve.id, curve]));
  for (const { channel, curve } of probes) found.set(channel.id, curveOfProbe(channel, curve));
  const unclear = probes.filter((probe) => !probe.isClear).map(({ channel }) => channel);
  for (const channels of groupsOf(store, { ...record, channels: unclear }, readingsAtOnce)) {
    for (const curve of probeCurves(await readExactly(store, record, channels), window))
      if (channels.some(({ id }) => id === curve.id)) found.set(curve.id, curve);
  }
  return seriesFrom(record, [...water, ...record.channels.flatMap(({ id }) => found.get(id) ?? [])]);
}

/** The scans of each board in rows, about two points of a curve from one. @param leastScans of a row */
async function rowsIn(
  store: Store,
  { id: burnId }: RecordWithoutReadings,
  { fromS, toS, points }: Window,
  leastScans = 1,
): Promise<BoardRows[]> {
  const boards: BoardRows[] = [];
  for (const boardId of store.scans.boards(burnId).sort()) {
    const most = Math.min(points / 2, store.scans.count(burnId, boardId) / leastScans);
    const stretch = { fromUs: fromS * 1e6, toUs: toS * 1e6, columns: Math.max(1, Math.floor(most)) };
    boards.push({ boardId, rows: store.scans.overview(burnId, boardId, stretch) });
    await nextTurn();
  }
  return boards;
}

/** Rows of the whole burn, as fine as a stretch of it needs them: the water depends on what was before. */
function rowsForWater(
  store: Store,
  record: RecordWithoutReadings,
  whole: Window,
  window: Window,
): Promise<BoardRows[]> {
  const share = Math.max((window.toS - window.fromS) / (whole.toS - whole.fromS), Number.MIN_VALUE);
  return rowsIn(store, record, { ...whole, points: (2 * ROWS_FOR_WATER) / share }, SCANS_PER_ROW);
}

async function readExactly(
  store: Store,
  record: RecordWithoutReadings,
  wanted: readonly Channel[],
): Promise<BurnRecord> {
  const { boards, channels } = await readChannels(store, record.id, withColdJunctions(record.channels, wanted));
  return assembleRecord({ ...record, channels }, boards);
}

/** First and last moment of each board and of each probe read by hand. */
function spansOf(store: Store, record: RecordWithoutReadings): Span[] {
  const ofBoards = store.scans.boards(record.id).flatMap((boardId) => {
    const whole = { fromUs: Number.MIN_SAFE_INTEGER, toUs: Number.MAX_SAFE_INTEGER, columns: 1 };
    const { fromUs, toUs } = store.scans.overview(record.id, boardId, whole);
    return fromUs.length === 0 ? [] : [{ fromS: fromUs[0]! / 1e6, toS: toUs[0]! / 1e6 }];
  });
  const byHand = handReadings(record).map(({ columns: { elapsedUs } }) => ({
    fromS: elapsedUs[0]! / 1e6,
    toS: elapsedUs.at(-1)! / 1e6,
  }));
  return [...ofBoards, ...byHand];
}

/** The channels in order, in groups of no more than so many readings, or of one channel. */
function groupsOf(store: Store, { id: burnId, channels }: RecordWithoutReadings, readingsAtOnce: number): Channel[][] {
  const groups: Channel[][] = [];
  let room = 0;
  for (const channel of channels) {
    const readings = channel.boardId === undefined ? 0 : store.scans.count(burnId, channel.boardId);
    if (groups.length === 0 || readings > room) {
      groups.push([]);
      room = readingsAtOnce;
    }
    groups.at(-1)!.push(channel);
    room -= readings;
  }
  return groups;
}

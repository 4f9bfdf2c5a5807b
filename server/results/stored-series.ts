/** The curves of a stored burn; those of a long one are read a few channels at a time. */
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { Series } from '../../shared/contract/series.ts';
import {
  probeCurves,
  type SeriesRequest,
  type Span,
  seriesFrom,
  seriesOf,
  waterCurves,
  windowOf,
} from '../curves/series.ts';
import { readBoardsInTurns, readChannels, withColdJunctions } from '../records/board-readings.ts';
import { assembleRecord } from '../records/burn-record.ts';
import { handReadings } from '../records/hand-readings.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';

/** Readings held in memory at once. All of four boards at ten scans a second over a day are 27 million, more than the worker may hold. */
const READINGS_AT_ONCE = 2_000_000;

/** The same series as `seriesOf` computes from the whole record. */
export async function storedSeries(
  store: Store,
  record: RecordWithoutReadings,
  request: SeriesRequest,
  readingsAtOnce = READINGS_AT_ONCE,
): Promise<Series> {
  const groups = groupsOf(store, record, readingsAtOnce);
  if (groups.length <= 1) return seriesOf(assembleRecord(record, await readBoardsInTurns(store, record.id)), request);
  const window = windowOf(request, spansOf(store, record));
  const read = async (wanted: readonly Channel[]) => {
    const { boards, channels } = await readChannels(store, record.id, withColdJunctions(record.channels, wanted));
    return assembleRecord({ ...record, channels }, boards);
  };
  const curves: Series['curves'] = [];
  const ofWater = record.channels.filter(({ role }) => role === 'water' || role === 'stationPressure');
  curves.push(...waterCurves(await read(ofWater), window));
  for (const channels of groups) {
    const ids = new Set(channels.map(({ id }) => id));
    const found = probeCurves(await read(channels), window);
    curves.push(...found.filter(({ id }) => ids.has(id)));
  }
  return seriesFrom(record, curves);
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

import { type Curve, channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { LiveScan } from '../../shared/analysis/live/live-burn.ts';
import { meansRecord } from '../curves/coarse-curves.ts';
import { withColdJunctions } from '../records/board-readings.ts';
import { assembleRecord } from '../records/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';

/** What is read within 10 ms. */
const MOST_SCANS = 8192;
/** Means for the time before: in a day, over 20 s each. */
const ROWS = 4000;
/** An estimate looks back for two minutes, scan by scan. */
const RECENT_US = 120e6;
/** More than a board sends in that time, so that no two scans are one row. */
const RECENT_ROWS = 6000;

/**
 * The water probes of the first board that has any, scan by scan; of a long burn, of which that would hold up the boards, means for what is
 * no longer recent.
 * @param rows of means
 * @param recentUs how long the last scans are recent
 */
export function* waterScans(
  store: Store,
  record: RecordWithoutReadings,
  rows = ROWS,
  recentUs = RECENT_US,
): Generator<LiveScan> {
  const boardId = boardOfWater(store, record);
  if (boardId === undefined) return;
  const ofBoard = record.channels.filter((channel) => channel.boardId === boardId);
  const channels = withColdJunctions(
    ofBoard,
    ofBoard.filter(({ role }) => role === 'water'),
  );
  const water = { ...record, channels };
  if (!isReadAsMeans(store, record)) {
    for (const columns of store.scans.pages(record.id, boardId))
      yield* scansOf(channelCurves(assembleRecord(water, [{ boardId, columns }])));
    return;
  }
  const toUs = store.scans.latest(record.id, boardId)!.elapsedUs;
  const fromUs = toUs - recentUs;
  let lastUs = Number.NEGATIVE_INFINITY;
  for (const window of [
    { fromUs: 0, toUs: fromUs, columns: rows },
    ...(recentUs > 0 ? [{ fromUs, toUs, columns: RECENT_ROWS }] : []),
  ]) {
    const means = meansRecord(water, [{ boardId, rows: store.scans.overview(record.id, boardId, window) }]);
    for (const scan of scansOf(channelCurves(means))) {
      if (scan.elapsedUs <= lastUs) continue;
      lastUs = scan.elapsedUs;
      yield scan;
    }
  }
}

/** Whether a burn is so long that means are read of it. */
export function isReadAsMeans(store: Store, record: RecordWithoutReadings): boolean {
  const boardId = boardOfWater(store, record);
  return boardId !== undefined && store.scans.count(record.id, boardId) > MOST_SCANS;
}

function boardOfWater(store: Store, { id, channels }: RecordWithoutReadings): string | undefined {
  const boards = channels.flatMap(({ role, boardId }) => (role === 'water' && boardId ? [boardId] : []));
  return boards.find((each) => store.scans.count(id, each) > 0);
}

function* scansOf(curves: readonly Curve[]): Generator<LiveScan> {
  const water = curves.filter(({ channel }) => channel.role === 'water');
  for (const [index, timeS] of (water[0]?.timeS ?? []).entries()) {
    const values = Object.fromEntries(
      water.flatMap(({ channel, value }) => (Number.isNaN(value[index]!) ? [] : [[channel.id, value[index]!]])),
    );
    yield { elapsedUs: timeS * 1e6, values };
  }
}

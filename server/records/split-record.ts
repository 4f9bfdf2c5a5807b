import type { BurnRecord, Channel, Readings } from '../../shared/contract/burn-record.ts';
import { derivedId } from '../base/identifiers.ts';
import { emptyColumns, type ScanColumns, statusOf } from '../store/scan-columns.ts';
import type { BoardReadings } from './board-readings.ts';
import { isMadeOfMarks } from './hand-readings.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';

type Column = Readings['columns'][number];

/** A place far beyond what any board has would make every scan as wide as that. */
const MOST_CHANNELS = 256;

/** A record as it is kept here: what is stated, and the scans of every board. */
export interface RecordParts {
  record: RecordWithoutReadings;
  boards: BoardReadings[];
}

/**
 * Takes a record apart the way it is kept. Here a channel is known by its board and its place in the scan; a record may
 * leave either out (readings typed by hand have no board), so both are completed, always in the same way, so that the
 * same record gives the same parts. `assembleRecord` puts them together again; readings it makes of marks are left out here.
 * @param record valid by its schema and by `recordFaults`
 */
export function splitRecord(record: BurnRecord): RecordParts {
  const { readings, ...withoutReadings } = record;
  const documents = new Map(record.channels.map((channel) => [channel.id, channel]));
  const placed = new Map<string, Channel>();
  const stored = readings.filter(
    // Of a board without columns nobody described what it measures; its scans are there all the same.
    ({ columns }) =>
      columns.length === 0 || !columns.every(({ channelId }) => isMadeOfMarks(record, documents.get(channelId))),
  );
  const boards = stored.map((board, number) => {
    const boardId = board.boardId ?? derivedId(`${record.id} readings ${number}`, record.startedUtcMs ?? 0);
    const indices = placesOf(board, boardId, documents);
    board.columns.forEach(({ channelId }, column) => {
      const channel = documents.get(channelId);
      if (channel) placed.set(channelId, { ...channel, boardId, index: indices[column]! });
    });
    return { boardId, columns: scanColumns(board, indices) };
  });
  const channels = record.channels.map((channel) => placed.get(channel.id) ?? withoutPlace(channel));
  // Nobody records here what was still running there when it was written down.
  const status = withoutReadings.status === 'running' ? 'ended' : withoutReadings.status;
  return { record: { ...withoutReadings, status, channels }, boards };
}

/** A channel without readings keeps no place: another channel's readings may lie there. */
function withoutPlace({ index: _index, ...channel }: Channel): Channel {
  return channel;
}

/**
 * The place each column has in a scan: the one its channel names, unless something else lies there already; then the
 * next free one. Two channels of one place (a probe described anew) share it.
 */
function placesOf(board: Readings, boardId: string, channels: ReadonlyMap<string, Channel>): number[] {
  const taken = new Map<number, Column>();
  const places = board.columns.map((column) => {
    const channel = channels.get(column.channelId);
    const place = channel?.boardId === boardId || channel?.boardId === undefined ? channel?.index : undefined;
    if (place === undefined || place >= MOST_CHANNELS) return undefined;
    const there = taken.get(place);
    if (there && !sameReadings(there, column)) return undefined;
    taken.set(place, column);
    return place;
  });
  let next = 0;
  return places.map((place, column) => {
    if (place !== undefined) return place;
    while (taken.has(next)) next++;
    taken.set(next, board.columns[column]!);
    return next;
  });
}

function sameReadings(a: Column, b: Column): boolean {
  return (
    a.counts.every((count, scan) => count === b.counts[scan]) &&
    JSON.stringify(a.faults ?? []) === JSON.stringify(b.faults ?? [])
  );
}

function scanColumns(board: Readings, indices: readonly number[]): ScanColumns {
  const scans = board.elapsedUs.length;
  const columns = emptyColumns(scans, Math.max(0, ...indices.map((index) => index + 1)));
  board.columns.forEach(({ counts, faults = [] }, column) => {
    const index = indices[column]!;
    const [values, status] = [columns.counts[index]!, columns.status[index]!];
    for (let scan = 0; scan < scans; scan++) {
      const count = counts[scan];
      if (typeof count !== 'number') continue;
      values[scan] = count;
      status[scan] = 0;
    }
    for (const [scan, fault] of faults) status[scan] = statusOf(fault);
  });
  for (let scan = 0; scan < scans; scan++) {
    const elapsedUs = board.elapsedUs[scan]!;
    columns.elapsedUs[scan] = elapsedUs;
    // A record carries neither the board's clock nor the moment of arrival; the burn's clock stands in for both.
    columns.arrivedUs[scan] = elapsedUs;
    columns.uptimeMs[scan] = Math.max(0, Math.round(elapsedUs / 1000)) % 2 ** 32;
    columns.boot[scan] = board.boot?.[scan] ?? 0;
    columns.sequence[scan] = board.sequence?.[scan] ?? scan;
  }
  return columns;
}

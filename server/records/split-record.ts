import type { BurnRecord, Channel, Readings } from '../../shared/contract/burn-record.ts';
import { derivedId } from '../base/identifiers.ts';
import { emptyColumns, type ScanColumns, statusOf } from '../store/scan-columns.ts';
import type { BoardReadings } from './board-readings.ts';
import { isMadeOfMarks } from './hand-readings.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';

type Column = Readings['columns'][number];

/** A place far beyond the channel count of any board would make every scan that wide. */
const MOST_CHANNELS = 256;

/** A record as it is stored: the documents, and the scans of every board. */
export interface RecordParts {
  record: RecordWithoutReadings;
  boards: BoardReadings[];
}

/**
 * Splits a record into the form in which it is stored. In the store a channel is identified by its board and its place
 * in the scan; a record may omit either (readings typed by hand have no board), so both are completed, always in the
 * same way, so that the same record gives the same parts. `assembleRecord` is the inverse; readings that it derives
 * from marks are omitted here.
 * @param record valid by its schema and by `recordFaults`
 */
export function splitRecord(record: BurnRecord): RecordParts {
  const { readings, ...withoutReadings } = record;
  const documents = new Map(record.channels.map((channel) => [channel.id, channel]));
  const placed = new Map<string, Channel>();
  const stored = readings.filter(
    // A board without columns has no described channels; its scans exist all the same.
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
  // A burn that was running when the record was written is not recorded on this bench.
  const status = withoutReadings.status === 'running' ? 'ended' : withoutReadings.status;
  return { record: { ...withoutReadings, status, channels }, boards };
}

/** A channel without readings has no place: another channel's readings may be stored there. */
function withoutPlace({ index: _index, ...channel }: Channel): Channel {
  return channel;
}

/**
 * The place of each column in a scan: the one its channel names, unless it is taken; then the next free one. Two
 * channels of one place (a probe described anew) share it.
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
    // A record contains neither the board's clock nor the time of arrival; the burn's clock replaces both.
    columns.arrivedUs[scan] = elapsedUs;
    columns.uptimeMs[scan] = Math.max(0, Math.round(elapsedUs / 1000)) % 2 ** 32;
    columns.boot[scan] = board.boot?.[scan] ?? 0;
    columns.sequence[scan] = board.sequence?.[scan] ?? scan;
  }
  return columns;
}

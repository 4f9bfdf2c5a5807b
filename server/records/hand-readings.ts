/**
 * Readings that a person took and typed are stored as marks, which can be corrected and withdrawn like every entry. In
 * a burn record they are readings like any other: each hand-read probe with its own moments, since two dials are never
 * read at once.
 */
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { emptyColumns, type ScanColumns } from '../store/scan-columns.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';

export interface HandReadings {
  channel: Channel;
  /** One channel, in the order of time. */
  columns: ScanColumns;
}

type Reading = Extract<Mark, { kind: 'reading' }>;

/** One entry for every hand-read probe with typed readings, in the order of the burn's channels. */
export function handReadings({ channels, marks }: Pick<RecordWithoutReadings, 'channels' | 'marks'>): HandReadings[] {
  return channels.flatMap((channel) => {
    const typed = readingsOf(marks, channel);
    return typed.length === 0 ? [] : [{ channel, columns: columnsOf(typed, channel) }];
  });
}

/** Whether the readings of this channel are derived from marks, so that they need not be stored separately. */
export function isMadeOfMarks({ marks }: Pick<RecordWithoutReadings, 'marks'>, channel: Channel | undefined): boolean {
  return channel !== undefined && readingsOf(marks, channel).length > 0;
}

/** Readings imported from a notebook are stored as scans, and none of them is a mark. */
export function isReadAsMarks({ handRead, boardId }: Channel): boolean {
  return handRead === true && boardId === undefined;
}

function readingsOf(marks: readonly Mark[], channel: Channel): Reading[] {
  if (!isReadAsMarks(channel)) return [];
  return marks
    .filter((mark): mark is Reading => mark.kind === 'reading' && mark.channelId === channel.id)
    .sort((a, b) => a.elapsedUs - b.elapsedUs || (a.id < b.id ? -1 : 1));
}

function columnsOf(typed: readonly Reading[], { scale }: Channel): ScanColumns {
  const columns = emptyColumns(typed.length, 1);
  typed.forEach(({ elapsedUs, value }, index) => {
    columns.elapsedUs[index] = elapsedUs;
    columns.arrivedUs[index] = elapsedUs;
    columns.sequence[index] = index;
    columns.counts[0]![index] = Math.round(value / scale);
    columns.status[0]![index] = 0;
  });
  return columns;
}

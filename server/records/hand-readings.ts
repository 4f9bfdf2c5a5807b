/**
 * What a person read and typed lies among the marks, where it can be corrected and taken back like everything a person
 * says. Whoever reads the burn finds it as readings like any other: each hand-read probe with moments of its own, since
 * nobody reads two dials at once.
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

/** One entry for every hand-read probe of which anything was typed, in the order of the burn's channels. */
export function handReadings({ channels, marks }: Pick<RecordWithoutReadings, 'channels' | 'marks'>): HandReadings[] {
  return channels.flatMap((channel) => {
    const typed = readingsOf(marks, channel);
    return typed.length === 0 ? [] : [{ channel, columns: columnsOf(typed, channel) }];
  });
}

/** Whether the readings of this channel are made of marks, so that they need not be kept beside them. */
export function isMadeOfMarks({ marks }: Pick<RecordWithoutReadings, 'marks'>, channel: Channel | undefined): boolean {
  return channel !== undefined && readingsOf(marks, channel).length > 0;
}

/** Readings that came from a notebook all at once are kept as scans, and nothing is typed beside them. */
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

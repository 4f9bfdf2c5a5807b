/** The rows of one burn in readings. */
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { readingsTable } from '../../shared/dataset/readings.ts';
import type { RowOf } from '../../shared/dataset/row.ts';
import { tidy } from '../exports/readings-table.ts';
import type { BoardReadings } from '../records/board-readings.ts';
import { assembleRecord, rising } from '../records/burn-record.ts';
import { handReadings } from '../records/hand-readings.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { faultOf, NOTHING, type ScanColumns } from '../store/scan-columns.ts';
import { momentUs } from './moment-us.ts';

type Row = RowOf<typeof readingsTable>;

/** One channel of a board, or of a person where there is no board; undefined where the channel was not described. */
interface Source {
  boardId: string | null;
  channel: Channel | undefined;
  columns: ScanColumns;
}

const quantities: Readonly<Record<Channel['unit'], string>> = {
  Cel: 'temperature',
  kg: 'mass',
  Pa: 'pressure',
  '%': 'fraction',
  '1': 'number',
  uV: 'voltage',
  Ohm: 'resistance',
};

/** Every reading, channel by channel; a channel that sent nothing in a scan has a row too, so that no scan is lost. */
export function* readingRows(record: RecordWithoutReadings, boards: readonly BoardReadings[]): Generator<Row> {
  const curves = new Map(
    channelCurves(assembleRecord(record, boards)).map(({ channel, value }) => [channel.id, value]),
  );
  for (const { boardId, columns } of boards) {
    const own = record.channels.filter(
      (channel) => channel.boardId === boardId && columns.counts[channel.index ?? -1] !== undefined,
    );
    for (const channel of own.length > 0 ? own : [undefined]) {
      yield* rowsOf(record, { boardId, channel, columns }, channel && curves.get(channel.id));
    }
  }
  for (const { channel, columns } of handReadings(record)) {
    yield* rowsOf(record, { boardId: null, channel: { ...channel, index: 0 }, columns }, curves.get(channel.id));
  }
}

function* rowsOf(
  record: RecordWithoutReadings,
  { boardId, channel, columns }: Source,
  curve: Float64Array | undefined,
): Generator<Row> {
  const head = { burn: record.id, simulated: record.origin === 'simulated', ...ofChannel(channel), board_id: boardId };
  const [counts, status] = [columns.counts[channel?.index ?? -1], columns.status[channel?.index ?? -1]];
  for (const [scan, elapsedUs] of rising()(columns.elapsedUs).entries()) {
    const state = status?.[scan] ?? NOTHING;
    const count = state === 0 ? counts![scan]! : null;
    const used = curve?.[scan] ?? Number.NaN;
    yield {
      ...head,
      value: count === null ? null : tidy(count * channel!.scale + (channel!.offset ?? 0)),
      corrected: head.corrected_unit === null || Number.isNaN(used) ? null : tidy(used),
      fault: faultOf(state) ?? null,
      measured_at: momentUs(record, elapsedUs),
      elapsed_us: elapsedUs,
      count,
      boot: boardId === null ? null : columns.boot[scan]!,
      sequence: boardId === null ? null : columns.sequence[scan]!,
    };
  }
}

function ofChannel(channel: Channel | undefined) {
  if (!channel)
    return { channel_id: null, channel: null, role: null, quantity: null, unit: null, corrected_unit: null };
  const { id, name, role, unit, calibration } = channel;
  const isConverted = unit === 'uV' || unit === 'Ohm';
  return {
    channel_id: id,
    channel: name,
    role,
    quantity: quantities[unit],
    unit,
    corrected_unit: isConverted ? 'Cel' : calibration ? unit : null,
  };
}

import type { BurnRecord, Channel, FaultCode, Readings } from '../../shared/contract/burn-record.ts';
import { faultOf } from '../store/scan-columns.ts';
import type { BoardReadings } from './board-readings.ts';
import { handReadings } from './hand-readings.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';

/** Inserts the readings into a record. Pure, so that a worker can do it along with the analysis. */
export function assembleRecord(record: RecordWithoutReadings, boards: readonly BoardReadings[]): BurnRecord {
  return { ...record, readings: [...boards.map((board) => readingsOf(board, record.channels)), ...readByHand(record)] };
}

/** These readings belong to no board, so they name none. */
function readByHand(record: RecordWithoutReadings): Readings[] {
  return handReadings(record).map(({ channel, columns }) => ({
    elapsedUs: rising()(columns.elapsedUs),
    sequence: Array.from(columns.sequence),
    boot: Array.from(columns.boot),
    columns: [columnOf(channel.id, columns.counts[0]!, columns.status[0]!)],
  }));
}

function readingsOf({ boardId, columns }: BoardReadings, channels: readonly Channel[]): Readings {
  return {
    boardId,
    elapsedUs: rising()(columns.elapsedUs),
    sequence: Array.from(columns.sequence),
    boot: Array.from(columns.boot),
    columns: channels.flatMap((channel) => {
      const counts = channel.boardId === boardId && channel.index !== undefined && columns.counts[channel.index];
      return counts ? [columnOf(channel.id, counts, columns.status[channel.index!]!)] : [];
    }),
  };
}

function columnOf(channelId: string, counts: Int32Array, status: Uint8Array): Readings['columns'][number] {
  const values: (number | null)[] = new Array(counts.length);
  const faults: [number, FaultCode][] = [];
  for (let index = 0; index < counts.length; index++) {
    const state = status[index]!;
    values[index] = state === 0 ? counts[index]! : null;
    const fault = faultOf(state);
    if (fault) faults.push([index, fault]);
  }
  return { channelId, counts: values, ...(faults.length > 0 && { faults }) };
}

/**
 * Two scans may have the same microsecond where a board's clock was fitted anew between them. The record requires
 * rising times, and their order is known. The function keeps its state from page to page of one board.
 */
export function rising(): (elapsedUs: Float64Array) => number[] {
  let last = Number.NEGATIVE_INFINITY;
  return (elapsedUs) =>
    Array.from(elapsedUs, (value) => {
      last = Math.max(value, last + 1);
      return last;
    });
}

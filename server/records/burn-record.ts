import { setImmediate as nextTurn } from 'node:timers/promises';
import type { BurnRecord, Channel, FaultCode, Readings } from '../../shared/contract/burn-record.ts';
import { faultOf, NOTHING, type ScanColumns } from '../store/scan-columns.ts';
import type { Store } from '../store/store.ts';
import type { BoardReadings } from './board-readings.ts';
import { handReadings } from './hand-readings.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';

/** Inserts the readings into a record. Pure, so that a worker can do it along with the analysis. */
export function assembleRecord(record: RecordWithoutReadings, boards: readonly BoardReadings[]): BurnRecord {
  return { ...record, readings: [...boards.map((board) => readingsOf(board, record.channels)), ...readByHand(record)] };
}

/**
 * The record with all readings that are stored, page by page, so that only one page at a time is in memory as the store has it.
 * Yields to the event loop after each.
 */
export async function readStoredRecord(store: Store, record: RecordWithoutReadings): Promise<BurnRecord> {
  const readings: Readings[] = [];
  for (const boardId of store.scans.boards(record.id).sort()) {
    const board = createReadings(placesOf(boardId, record.channels), store.scans.count(record.id, boardId));
    for (const page of store.scans.pages(record.id, boardId)) {
      board.add(page);
      await nextTurn();
    }
    readings.push({ boardId, ...board.finish() });
  }
  return { ...record, readings: [...readings, ...readByHand(record)] };
}

/** These readings belong to no board, so they name none. */
function readByHand(record: RecordWithoutReadings): Readings[] {
  return handReadings(record).map(({ channel, columns }) => readingsIn(columns, [{ channelId: channel.id, index: 0 }]));
}

function readingsOf({ boardId, columns }: BoardReadings, channels: readonly Channel[]): Readings {
  return { boardId, ...readingsIn(columns, placesOf(boardId, channels)) };
}

function readingsIn(columns: ScanColumns, places: readonly Place[]): Readings {
  const readings = createReadings(places, columns.elapsedUs.length);
  readings.add(columns);
  return readings.finish();
}

/** A channel and where it stands in the scans. */
interface Place {
  readonly channelId: string;
  readonly index: number;
}

function placesOf(boardId: string, channels: readonly Channel[]): Place[] {
  return channels.flatMap((channel) =>
    channel.boardId === boardId && channel.index !== undefined ? [{ channelId: channel.id, index: channel.index }] : [],
  );
}

/**
 * The readings of some channels of the same scans, which grow by pages of these.
 * @param expected number of scans, for which there is room
 */
function createReadings(places: readonly Place[], expected: number) {
  const inOrder = rising();
  const elapsedUs: number[] = new Array(expected);
  const sequence: number[] = new Array(expected);
  const boot: number[] = new Array(expected);
  const columns = places.map((place) => ({
    ...place,
    counts: new Array<number | null>(expected),
    faults: [] as [number, FaultCode][],
  }));
  let count = 0;
  let width = 0;

  return {
    add(page: ScanColumns): void {
      for (const [scan, moment] of inOrder(page.elapsedUs).entries()) {
        elapsedUs[count + scan] = moment;
        sequence[count + scan] = page.sequence[scan]!;
        boot[count + scan] = page.boot[scan]!;
      }
      for (const { index, counts, faults } of columns) {
        const [values, status] = [page.counts[index], page.status[index]];
        for (let scan = 0; scan < page.elapsedUs.length; scan++) {
          const state = status ? status[scan]! : NOTHING;
          counts[count + scan] = state === 0 ? values![scan]! : null;
          const fault = faultOf(state);
          if (fault) faults.push([count + scan, fault]);
        }
      }
      count += page.elapsedUs.length;
      width = Math.max(width, page.counts.length);
    },

    /** Leaves out channels that no scan has. */
    finish(): Readings {
      for (const list of [elapsedUs, sequence, boot, ...columns.map(({ counts }) => counts)]) list.length = count;
      return {
        elapsedUs,
        sequence,
        boot,
        columns: columns
          .filter(({ index }) => index < width)
          .map(({ channelId, counts, faults }) => ({ channelId, counts, ...(faults.length > 0 && { faults }) })),
      };
    },
  };
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

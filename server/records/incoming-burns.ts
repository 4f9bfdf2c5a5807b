/** Burns to be imported: their documents at once, their scans page by page. */
import { channelsOfSmallCurve, type SmallCurve, smallCurve } from '../curves/small-curve.ts';
import { type PackedBlock, packColumns } from '../store/packed-block.ts';
import { everyNth, pagesOf, type ScanColumns } from '../store/scan-columns.ts';
import type { BoardReadings } from './board-readings.ts';
import { assembleRecord } from './burn-record.ts';
import type { RecordWithoutReadings } from './record-without-readings.ts';
import type { RecordParts } from './split-record.ts';

export interface IncomingBurn {
  record: RecordWithoutReadings;
  boards: readonly string[];
  /** Of the last scan, on the burn's clock; 0 where there is none. */
  lastUs: number;
  curve: SmallCurve;
}

/** Some scans of a burn: packed, or as columns where a block cannot hold them. */
export type ScanPage = {
  /** Index of its burn among the burns. */
  burn: number;
  boardId: string;
} & ({ block: PackedBlock } | { columns: ScanColumns });

export interface IncomingBurns {
  burns: readonly IncomingBurn[];
  /** By burn, then by board, in the order of time. */
  pages: Iterable<ScanPage> | AsyncIterable<ScanPage>;
  /** In all pages. */
  scans: number;
}

/** As many as are written in one transaction of some 20 ms. */
const SCANS_PER_PAGE = 4096;
const MOST_SCANS_OF_SKETCH = 10_000;

export function incomingBurns(records: readonly RecordParts[]): IncomingBurns {
  function* pages(): Generator<ScanPage> {
    for (const [burn, { boards }] of records.entries()) {
      for (const { boardId, columns } of boards) {
        const blocks = packColumns(columns);
        if (blocks) for (const block of blocks) yield { burn, boardId, block };
        else for (const page of pagesOf(columns, SCANS_PER_PAGE)) yield { burn, boardId, columns: copyOf(page) };
      }
    }
  }
  const scans = records.flatMap(({ boards }) => boards).reduce((sum, { columns }) => sum + columns.elapsedUs.length, 0);
  return { burns: records.map(describe), pages: pages(), scans };
}

function describe({ record, boards }: RecordParts): IncomingBurn {
  return {
    record,
    boards: boards.map(({ boardId }) => boardId),
    lastUs: Math.max(0, ...boards.map(({ columns }) => columns.elapsedUs.at(-1) ?? 0)),
    curve: curveOf(record, boards),
  };
}

/** The small curve of a burn, from some of its scans. */
export function curveOf(record: RecordWithoutReadings, boards: readonly BoardReadings[]): SmallCurve {
  const channels = channelsOfSmallCurve(record.channels);
  return smallCurve(assembleRecord({ ...record, channels }, boards.map(thinned)));
}

/** Enough scans for a curve of a few dozen points; reading all scans of a long burn would block everything else. */
function thinned({ boardId, columns }: BoardReadings): BoardReadings {
  const step = Math.ceil(columns.elapsedUs.length / MOST_SCANS_OF_SKETCH);
  return step <= 1 ? { boardId, columns } : { boardId, columns: everyNth(columns, step) };
}

/** Copies the columns: transferring a view of a shared buffer to another thread would transfer the whole buffer. */
function copyOf(columns: ScanColumns): ScanColumns {
  return {
    elapsedUs: columns.elapsedUs.slice(),
    arrivedUs: columns.arrivedUs.slice(),
    uptimeMs: columns.uptimeMs.slice(),
    boot: columns.boot.slice(),
    sequence: columns.sequence.slice(),
    counts: columns.counts.map((column) => column.slice()),
    status: columns.status.map((column) => column.slice()),
  };
}

import { channelCurves } from '../../shared/analysis/channel-curve.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { assembleRecord } from '../burns/burn-record.ts';
import type { RecordDraft } from '../burns/record-draft.ts';
import { faultOf, type ScanColumns } from '../store/scan-columns.ts';
import type { Store } from '../store/store.ts';
import { type Cell, type Table, type TableColumn, withUniqueNames } from './table.ts';

const ROWS_PER_PAGE = 4096;

/** What one channel brings to a row: the value as sent, the fault, and the value as it is used. */
interface ChannelCells {
  as: readonly TableColumn[];
  cells(page: BoardPage, row: number): Cell[];
}

interface BoardPage {
  columns: ScanColumns;
  /** Calibrated values by channel id; NaN where there is none. */
  curves: Map<string, Float64Array>;
}

/** All readings of a burn, one row a scan, the boards in the order of time; read page by page. */
export function readingsTable(store: Store, draft: RecordDraft): Table {
  const boards = store.scans.boards(draft.id).map((boardId) => ({ boardId, channels: channelsOf(draft, boardId) }));
  const widths = boards.map(({ channels }) => channels.reduce((sum, { as }) => sum + as.length, 0));

  function* rowsOf(board: number): Generator<{ elapsedUs: number; cells: Cell[] }> {
    const { boardId, channels } = boards[board]!;
    const blanksBefore = blanks(widths.slice(0, board));
    const blanksAfter = blanks(widths.slice(board + 1));
    for (const columns of store.scans.pages(draft.id, boardId, ROWS_PER_PAGE)) {
      const page = { columns, curves: curvesOf(draft, boardId, columns) };
      for (let row = 0; row < columns.elapsedUs.length; row++) {
        const elapsedUs = columns.elapsedUs[row]!;
        const own = channels.flatMap((channel) => channel.cells(page, row));
        const head = [elapsedUs / 1e6, utc(draft, elapsedUs), columns.boot[row]!, columns.sequence[row]!];
        yield { elapsedUs, cells: [...head, ...blanksBefore, ...own, ...blanksAfter] };
      }
    }
  }

  const columns = withUniqueNames([
    ...headColumns,
    ...boards.flatMap(({ channels }) => channels.flatMap(({ as }) => as)),
  ]);
  return {
    name: 'readings',
    description: 'All readings, one row a scan',
    columns,
    *pages() {
      let rows: Cell[][] = [];
      for (const cells of mergeByTime(boards.map((_, board) => rowsOf(board)))) {
        rows.push(cells);
        if (rows.length < ROWS_PER_PAGE) continue;
        yield columns.map((_, column) => rows.map((row) => row[column] ?? null));
        rows = [];
      }
      if (rows.length > 0) yield columns.map((_, column) => rows.map((row) => row[column] ?? null));
    },
  };
}

const headColumns: readonly TableColumn[] = [
  { name: 'elapsed', type: 'number', unit: 's', description: 'since recording started' },
  { name: 'utc', type: 'text', description: 'wall-clock label, ISO 8601' },
  { name: 'boot', type: 'integer', description: "the board's boot counter" },
  { name: 'sequence', type: 'integer', description: "the board's number of the scan" },
];

function channelsOf(draft: RecordDraft, boardId: string): ChannelCells[] {
  return draft.channels.filter((channel) => channel.boardId === boardId && channel.index !== undefined).map(cellsOf);
}

function cellsOf(channel: Channel): ChannelCells {
  const { name, unit, index = 0 } = channel;
  const converted = unit === 'uV' || unit === 'Ohm';
  const corrected = channel.calibration !== undefined || converted;
  const as: TableColumn[] = [
    { name, type: 'number', unit, description: 'as the board sent it' },
    { name: `${name} fault`, type: 'text', description: 'named by the board instead of a reading' },
  ];
  if (corrected) {
    as.push({
      name: `${name} corrected`,
      type: 'number',
      unit: converted ? 'Cel' : unit,
      description: 'calibrated and converted, as the results use it',
    });
  }
  return {
    as,
    cells({ columns, curves }, row) {
      const status = columns.status[index]?.[row];
      const sent = status === 0 ? tidy(columns.counts[index]![row]! * channel.scale) : null;
      const fault = status === undefined ? null : (faultOf(status) ?? null);
      const value = curves.get(channel.id)?.[row];
      return corrected
        ? [sent, fault, value !== undefined && Number.isFinite(value) ? tidy(value) : null]
        : [sent, fault];
    },
  };
}

function curvesOf(draft: RecordDraft, boardId: string, columns: ScanColumns): BoardPage['curves'] {
  const record = assembleRecord(draft, [{ boardId, columns }]);
  return new Map(channelCurves(record).map(({ channel, value }) => [channel.id, value]));
}

/** A count times a decimal scale leaves dust in the last bits: 23.4 is not 23.400000000000002. */
function tidy(value: number): number {
  return Number(value.toPrecision(9));
}

function utc({ startedUtcMs }: RecordDraft, elapsedUs: number): Cell {
  return startedUtcMs === undefined ? null : new Date(startedUtcMs + Math.round(elapsedUs / 1000)).toISOString();
}

function blanks(widths: readonly number[]): null[] {
  return new Array<null>(widths.reduce((sum, width) => sum + width, 0)).fill(null);
}

function* mergeByTime(boards: Generator<{ elapsedUs: number; cells: Cell[] }>[]): Generator<Cell[]> {
  const heads = boards.map((rows) => ({ rows, next: rows.next() }));
  for (;;) {
    let first: (typeof heads)[number] | undefined;
    for (const head of heads) {
      if (head.next.done) continue;
      if (!first || head.next.value.elapsedUs < (first.next.value as { elapsedUs: number }).elapsedUs) first = head;
    }
    if (!first || first.next.done) return;
    yield first.next.value.cells;
    first.next = first.rows.next();
  }
}

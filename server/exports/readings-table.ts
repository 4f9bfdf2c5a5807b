import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { BurnRecord, Channel } from '../../shared/contract/burn-record.ts';
import { assembleRecord, rising } from '../records/burn-record.ts';
import { handReadings } from '../records/hand-readings.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { faultOf, type ScanColumns } from '../store/scan-columns.ts';
import type { Store } from '../store/store.ts';
import { utcMs } from './burn-columns.ts';
import { type Cell, heading, type Table, type TableColumn, withUniqueNames } from './table.ts';

const ROWS_PER_PAGE = 4096;

type Columns = Cell[][];

/** What one channel brings: the value as sent, the fault, and the value as it is used. */
interface ChannelColumns {
  as: readonly TableColumn[];
  /** Whether the last of them is the value as it is used. */
  isCorrected: boolean;
  cells(page: BoardPage): Columns;
}

interface BoardPage {
  columns: ScanColumns;
  /** Calibrated values by channel id; NaN where there is none. */
  curves: ReadonlyMap<string, Float64Array>;
}

/** What has rows of its own: a board, or a probe that a person reads. */
interface Source {
  /** Identifier of the board, or of the probe. */
  id: string;
  channels: ChannelColumns[];
  pages(): Iterable<ScanColumns>;
  curves(columns: ScanColumns): BoardPage['curves'];
}

function boardSources(store: Store, record: RecordWithoutReadings): Source[] {
  return store.scans
    .boards(record.id)
    .sort()
    .map((boardId) => ({
      id: boardId,
      channels: record.channels
        .filter((channel) => channel.boardId === boardId && channel.index !== undefined)
        .map(columnsOf),
      pages: () => store.scans.pages(record.id, boardId, ROWS_PER_PAGE),
      curves: (columns) => curvesOf(assembleRecord({ ...record, marks: [] }, [{ boardId, columns }])),
    }));
}

function handSources(record: RecordWithoutReadings): Source[] {
  return handReadings(record).map(({ channel, columns }) => ({
    id: channel.id,
    channels: [columnsOf(channel)],
    pages: () => [columns],
    curves: () => curvesOf(assembleRecord(record, [])),
  }));
}

/** All readings of a burn, one row a scan, the boards in the order of time; read page by page. */
export function readingsTable(store: Store, record: RecordWithoutReadings): Table {
  const boards = [...boardSources(store, record), ...handSources(record)];

  function* pagesOf({ id, pages, curves, channels }: Source): Generator<Columns> {
    const rise = rising();
    const areAsSent = channels.every(({ isCorrected }) => !isCorrected);
    for (const columns of pages()) {
      // Most probes are neither calibrated nor converted, and curves are a third of the work.
      const page = { columns, curves: areAsSent ? NO_CURVES : curves(columns) };
      const elapsedUs = rise(columns.elapsedUs);
      yield [
        elapsedUs.map((us) => us / 1e6),
        elapsedUs.map((us) => utcMs(record, us)),
        new Array<Cell>(elapsedUs.length).fill(id),
        Array.from(columns.boot),
        Array.from(columns.sequence),
        ...channels.flatMap((channel) => channel.cells(page)),
      ];
    }
  }

  const widths = boards.map(({ channels }) => channels.reduce((sum, { as }) => sum + as.length, 0));
  const own = boards.flatMap(({ channels }) => channels.flatMap(({ as }) => as));
  return {
    name: 'readings',
    description: 'All readings, one row a scan',
    columns: withUniqueNames([...headColumns, ...own]),
    primaryKey: ['source', heading(ELAPSED)],
    pages: () => (boards.length === 1 ? pagesOf(boards[0]!) : merged(boards.map(pagesOf), widths)),
  };
}

const NO_CURVES: BoardPage['curves'] = new Map();

const ELAPSED: TableColumn = { name: 'elapsed', type: 'number', unit: 's', description: 'since recording started' };

const headColumns: readonly TableColumn[] = [
  ELAPSED,
  { name: 'utc', type: 'timestamp', description: 'the same on the wall clock' },
  { name: 'source', type: 'text', description: 'identifier of the board, or of the probe that a person reads' },
  { name: 'boot', type: 'integer', description: "the board's boot counter" },
  { name: 'sequence', type: 'integer', description: "the board's number of the scan" },
];

function columnsOf(channel: Channel): ChannelColumns {
  // A person's reading lies alone in its row.
  const { name, unit, index = 0, scale, offset = 0 } = channel;
  const converted = unit === 'uV' || unit === 'Ohm';
  const corrected = channel.calibration !== undefined || converted;
  const sent: TableColumn = {
    name,
    type: 'number',
    unit,
    description: channel.handRead ? 'as a person read it' : 'as the board sent it',
    ...(!corrected && { role: channel.role }),
  };
  const fault: TableColumn = {
    name: `${name} fault`,
    type: 'text',
    description: 'named by the board instead of a reading',
  };
  const used: TableColumn = {
    name: `${name} corrected`,
    type: 'number',
    unit: converted ? 'Cel' : unit,
    description: 'calibrated and converted, as the results use it',
    role: channel.role,
  };
  const as = [sent, ...(channel.handRead ? [] : [fault]), ...(corrected ? [used] : [])];
  return {
    as,
    isCorrected: corrected,
    cells({ columns, curves }) {
      const rows = columns.elapsedUs.length;
      const [counts, status] = [columns.counts[index], columns.status[index]];
      const sent: Cell[] = new Array(rows).fill(null);
      const faults: Cell[] = new Array(rows).fill(null);
      for (let row = 0; row < rows; row++) {
        const state = status?.[row];
        if (state === 0) sent[row] = tidy(counts![row]! * scale + offset);
        else if (state !== undefined) faults[row] = faultOf(state) ?? null;
      }
      const asSent = channel.handRead ? [sent] : [sent, faults];
      if (!corrected) return asSent;
      const curve = curves.get(channel.id);
      const used = Array.from(sent, (_, row) => {
        const value = curve?.[row] ?? Number.NaN;
        return Number.isFinite(value) ? tidy(value) : null;
      });
      return [...asSent, used];
    },
  };
}

function curvesOf(record: BurnRecord): BoardPage['curves'] {
  return new Map(channelCurves(record).map(({ channel, value }) => [channel.id, value]));
}

/** A count times a decimal scale leaves dust in the last bits: 23.4 is not 23.400000000000002. */
export function tidy(value: number): number {
  return Math.abs(value) < 1e6 ? Math.round(value * 1e9) / 1e9 : Number(value.toPrecision(15));
}

/**
 * The pages of several boards as one table in the order of time; where a row is of one board, the columns of the others
 * are blank.
 */
function* merged(boards: readonly Generator<Columns>[], widths: readonly number[]): Generator<Columns> {
  const heads = boards.map((pages, board) => ({ board, rows: rowsOf(pages), next: undefined as Cell[] | undefined }));
  for (const head of heads) head.next = head.rows.next().value;
  const width = headColumns.length + widths.reduce((sum, own) => sum + own, 0);
  let page: Columns = Array.from({ length: width }, () => []);
  for (;;) {
    const first = heads.reduce((best, head) => (startOf(head.next) < startOf(best.next) ? head : best), heads[0]!);
    if (!first?.next) break;
    const before = headColumns.length + widths.slice(0, first.board).reduce((sum, own) => sum + own, 0);
    const { next } = first;
    page.forEach((column, index) => {
      const own = index < headColumns.length ? index : index - before + headColumns.length;
      column.push((index < headColumns.length || own >= headColumns.length ? next[own] : null) ?? null);
    });
    first.next = first.rows.next().value;
    if (page[0]!.length < ROWS_PER_PAGE) continue;
    yield page;
    page = Array.from({ length: width }, () => []);
  }
  if (page[0]!.length > 0) yield page;
}

function* rowsOf(pages: Iterable<Columns>): Generator<Cell[], undefined> {
  for (const page of pages) {
    for (let row = 0; row < page[0]!.length; row++) yield page.map((column) => column[row] ?? null);
  }
}

/** Elapsed seconds of a row; a board that has no more comes last. */
function startOf(row: Cell[] | undefined): number {
  return row === undefined ? Number.POSITIVE_INFINITY : (row[0] as number);
}

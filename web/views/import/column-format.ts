/** How a table of another logger is read, and the changes that a person can make to it. Pure. */
import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { ColumnFormat, ColumnPreview, ColumnTime } from '../../../shared/contract/imports.ts';
import type { ColumnUnit } from '../../../shared/contract/ucum-units.ts';

type ElapsedUnit = Extract<ColumnTime, { kind: 'elapsed' }>['unit'];
type DateOrder = Extract<ColumnTime, { kind: 'dateTime' }>['order'];
type UnixUnit = Extract<ColumnTime, { kind: 'unix' }>['unit'];

/** A kind of time column with its unit or order, as one choice. */
export type TimeKey =
  | `elapsed:${ElapsedUnit}`
  | 'clock'
  | `dateTime:${DateOrder}`
  | 'serial'
  | `unix:${UnixUnit}`
  | 'every';

/** Assumed time between readings until the person enters it. */
const USUAL_EVERY_S = 1;

export function timeKey(time: ColumnTime): TimeKey {
  switch (time.kind) {
    case 'elapsed':
    case 'unix':
      return `${time.kind}:${time.unit}` as TimeKey;
    case 'dateTime':
      return `dateTime:${time.order}`;
    default:
      return time.kind;
  }
}

/** Another kind of time in the same column; the first one when there was none. */
export function withTimeKey(format: ColumnFormat, key: TimeKey): ColumnFormat {
  const column = 'column' in format.time ? format.time.column : 0;
  const [kind, detail] = key.split(/:(.*)/) as [ColumnTime['kind'], string];
  switch (kind) {
    case 'elapsed':
      return withTime(format, { kind, column, unit: detail as ElapsedUnit });
    case 'unix':
      return withTime(format, { kind, column, unit: detail as UnixUnit });
    case 'dateTime': {
      const timePart = 'timeColumn' in format.time && { timeColumn: format.time.timeColumn };
      return withTime(format, { kind, column, order: detail as DateOrder, ...timePart });
    }
    case 'every':
      return withTime(format, { kind, everyS: USUAL_EVERY_S });
    default:
      return withTime(format, { kind, column });
  }
}

/** A column with the time is no probe. */
export function withTime(format: ColumnFormat, time: ColumnTime): ColumnFormat {
  const taken = timeColumns({ ...format, time });
  return { ...format, time, columns: format.columns.filter(({ column }) => !taken.includes(column)) };
}

export function timeColumns({ time }: ColumnFormat): number[] {
  if (time.kind === 'every') return [];
  return time.kind === 'dateTime' && time.timeColumn !== undefined ? [time.column, time.timeColumn] : [time.column];
}

/** Number of cells in the widest row of readings. */
export function widthOf({ sample, format }: ColumnPreview): number {
  return Math.max(0, ...sample.slice(format.firstRow - 1).map(({ cells }) => cells.length));
}

/** The heading of a column; names and units may be in two rows. */
export function headingOf({ sample, format }: ColumnPreview, column: number): string {
  return sample
    .slice(Math.max(0, format.firstRow - 3), format.firstRow - 1)
    .map(({ cells }) => cells[column] ?? '')
    .filter((text) => text !== '')
    .join(' ')
    .slice(0, 120);
}

const usualUnits: Partial<Record<Channel['role'], ColumnUnit>> = {
  fuelScale: 'kg',
  stoveScale: 'kg',
  stationPressure: 'hPa',
  oxygen: '%',
  carbonDioxide: '%',
  carbonMonoxide: '%',
};

/** Adds a column to be read, in its order among the others. */
export function withColumn(
  format: ColumnFormat,
  column: number,
  role: Channel['role'],
  usualName: string,
): ColumnFormat {
  const known = format.columns.find((each) => each.column === column);
  const added = known
    ? { ...known, role }
    : { column, role, name: usualName, unit: usualUnits[role] ?? ('Cel' as const) };
  const others = format.columns.filter((each) => each.column !== column);
  return { ...format, columns: [...others, added].sort((a, b) => a.column - b.column) };
}

export function withoutColumn(format: ColumnFormat, column: number): ColumnFormat {
  return { ...format, columns: format.columns.filter((each) => each.column !== column) };
}

/** Whether it is complete enough for the service to use it. */
export function isWhole({ columns }: ColumnFormat): boolean {
  return columns.length > 0 && columns.every(({ name }) => name.trim() !== '');
}

/** Doubts of a guess. */
export interface Doubted {
  readonly doubts: ColumnPreview['doubts'];
  readonly format: ColumnFormat;
}

/** The doubts that the person has not resolved since. */
export function openDoubts(doubted: Doubted | undefined, now: ColumnFormat): ColumnPreview['doubts'] {
  if (!doubted) return [];
  const { format: before, doubts } = doubted;
  const isTimeChosen = JSON.stringify(before.time) !== JSON.stringify(now.time);
  const unitsOf = ({ columns }: ColumnFormat) => columns.map(({ column, unit }) => `${column} ${unit}`).join();
  return doubts.filter((doubt) => {
    switch (doubt) {
      case 'decimal':
        return before.decimal === now.decimal && before.separator === now.separator;
      case 'thousands':
        return before.thousands === now.thousands && before.decimal === now.decimal;
      case 'openQuote':
        return before.quotes === now.quotes;
      case 'clockSet':
        return JSON.stringify(before.clockSteps) === JSON.stringify(now.clockSteps);
      case 'rowNumbers':
        return before.columns.map(({ column }) => column).join() === now.columns.map(({ column }) => column).join();
      case 'unit':
      case 'fahrenheit':
        return unitsOf(before) === unitsOf(now);
      case 'role':
        return !now.columns.some(({ role }) => role === 'water');
      default:
        return !isTimeChosen;
    }
  });
}

/** A new guess, with the entries of the person for columns that still exist. */
export function withNamesOf(before: ColumnFormat, guess: ColumnFormat): ColumnFormat {
  if (before.separator !== guess.separator) return guess;
  return {
    ...guess,
    columns: guess.columns.map((column) => before.columns.find((each) => each.column === column.column) ?? column),
  };
}

/** Reads a file of columns by a format: moments and values, and every cell that is not what the format says. */

import { isDate } from '../../../shared/contract/burn-date.ts';
import type { FaultCode } from '../../../shared/contract/burn-record.ts';
import type { ColumnFormat, ColumnProblem } from '../../../shared/contract/imports.ts';
import { toStored } from '../../../shared/plain-lines/stored-units.ts';
import { putForwardS, type WrittenTime } from '../common/clock-steps.ts';
import { readCell } from './cells.ts';
import { eachRow, type Row } from './split-rows.ts';
import { clockS, colonStretchS, dateTime, pastMidnight, secondsPerUnit, serialToUtcS } from './written-times.ts';

export interface ColumnReadings {
  /** Seconds since the first row, rising. */
  elapsedS: number[];
  /** What the clock showed in each row that tells it, and tells no zone: those that seem to go back as well. */
  rawTimes: WrittenTime[];
  lines: number[];
  columns: {
    /** In the unit that is kept; null where there is none. */
    values: (number | null)[];
    faults: [number, FaultCode][];
    /** Most digits behind the separator, as written. */
    decimals: number;
  }[];
  /** When the first row was read, where the file says so. */
  startedUtc?: { ms: number; zoned: boolean };
  /** Time of day of the first row, where the file tells nothing more. */
  startClockS?: number;
  problems: ColumnProblem[];
  problemCount: number;
}

const MOST_PROBLEMS = 20;

/** Between two reports of where the reading is. */
const ROWS_A_REPORT = 4096;

/** @param onLine is told the line that has been reached, now and then */
export function readColumns(text: string, format: ColumnFormat, onLine?: (line: number) => void): ColumnReadings {
  const { columns, decimal, unreadable } = format;
  const clock = readerOfTime(format);
  const result: ColumnReadings = {
    elapsedS: [],
    rawTimes: [],
    lines: [],
    columns: columns.map(() => ({ values: [], faults: [], decimals: 0 })),
    problems: [],
    problemCount: 0,
  };
  const complain = (row: Row, column: number, expected: ColumnProblem['expected']) => {
    result.problemCount++;
    if (result.problems.length >= MOST_PROBLEMS) return;
    const found = (row.cells[column] ?? '').slice(0, 60);
    result.problems.push({ line: row.line, column: column + 1, expected, found });
  };
  const times: number[] = [];
  let rowNumber = 0;
  let last = Number.NEGATIVE_INFINITY;
  let before: number | undefined;

  eachRow(text, format, (row) => {
    if (++rowNumber % ROWS_A_REPORT === 0) onLine?.(row.line);
    if (rowNumber < format.firstRow) return;
    const short = columns.some(({ column }) => column >= row.cells.length);
    const shown = clock.momentS(row, before);
    if (shown === undefined || short) {
      complain(row, shown === undefined ? clock.column : row.cells.length, shown === undefined ? 'time' : 'cells');
      return;
    }
    if (clock.isOfTheWall) result.rawTimes.push({ line: row.line, clockS: shown });
    const moment = shown - putForwardS(format.clockSteps, row.line);
    if (moment < last) {
      complain(row, clock.column, 'laterTime');
      return;
    }
    last = moment;
    before = shown;
    times.push(moment);
    result.lines.push(row.line);
    columns.forEach(({ column, unit }, index) => {
      const into = result.columns[index]!;
      const field = readCell(row.cells[column]!, format);
      if (field.kind === 'number') {
        into.values.push(toStored(field.value, unit));
        into.decimals = Math.max(into.decimals, decimalsOf(row.cells[column]!, decimal));
        return;
      }
      into.values.push(null);
      if (field.kind === 'fault') {
        if (row.cells[column] !== '') into.faults.push([times.length - 1, field.fault]);
        return;
      }
      complain(row, column, 'number');
      if (unreadable === 'skip') into.faults.push([times.length - 1, 'unreadable']);
    });
  });
  const first = times[0] ?? 0;
  result.elapsedS = spread(times.map((moment) => moment - first));
  const startedUtc = clock.startedUtc(first);
  if (times.length === 0) return result;
  return {
    ...result,
    ...(startedUtc && { startedUtc }),
    ...(format.time.kind === 'clock' && { startClockS: first }),
  };
}

interface TimeReader {
  /** Place of the column that a complaint is about. */
  column: number;
  /** Whether it is a clock that somebody may have set meanwhile. */
  isOfTheWall: boolean;
  /** @param before the moment of the row before */
  momentS(row: Row, before: number | undefined): number | undefined;
  startedUtc(firstS: number): ColumnReadings['startedUtc'] | undefined;
}

function readerOfTime(format: ColumnFormat): TimeReader {
  const { time } = format;
  const nowhere = { column: 'column' in time ? time.column : 0, isOfTheWall: false, startedUtc: () => undefined };
  const number = (row: Row, column: number) => {
    const field = readCell(row.cells[column] ?? '', format);
    return field.kind === 'number' ? field.value : undefined;
  };
  const utc = (zoned: boolean) => (firstS: number) => ({ ms: Math.round(firstS * 1000), zoned });
  switch (time.kind) {
    case 'every':
      return { ...nowhere, momentS: (_row, before) => (before === undefined ? 0 : before + time.everyS) };
    case 'elapsed': {
      const { unit } = time;
      if (unit === 'h:mm:ss' || unit === 'mm:ss') {
        return { ...nowhere, momentS: (row) => colonStretchS(row.cells[time.column] ?? '', unit) };
      }
      return { ...nowhere, momentS: (row) => scaled(number(row, time.column), secondsPerUnit[unit]) };
    }
    case 'clock':
      return {
        ...nowhere,
        isOfTheWall: true,
        momentS(row, before) {
          const clock = clockS(row.cells[time.column] ?? '');
          return clock === undefined ? undefined : pastMidnight(clock, before);
        },
      };
    case 'unix':
      return {
        column: time.column,
        isOfTheWall: false,
        momentS: (row) => dated(scaled(number(row, time.column), time.unit === 'ms' ? 1e-3 : 1)),
        startedUtc: utc(true),
      };
    case 'serial':
      return {
        column: time.column,
        isOfTheWall: true,
        momentS(row) {
          const days = number(row, time.column);
          return dated(days === undefined ? undefined : serialToUtcS(days));
        },
        startedUtc: utc(false),
      };
    case 'dateTime': {
      let zoned = false;
      return {
        column: time.column,
        get isOfTheWall() {
          return !zoned;
        },
        momentS(row) {
          const date = row.cells[time.column] ?? '';
          const clock = time.timeColumn === undefined ? '' : ` ${row.cells[time.timeColumn] ?? ''}`;
          const read = dateTime(`${date}${clock}`, time.order);
          zoned = read?.zoned ?? zoned;
          return dated(read?.utcS);
        },
        startedUtc: (firstS) => ({ ms: Math.round(firstS * 1000), zoned }),
      };
    }
  }
}

/** A moment that no burn can have is none. */
function dated(utcS: number | undefined): number | undefined {
  return utcS !== undefined && isDate(1000 * utcS) ? utcS : undefined;
}

function scaled(value: number | undefined, factor: number): number | undefined {
  return value === undefined ? undefined : value * factor;
}

function decimalsOf(cell: string, decimal: ColumnFormat['decimal']): number {
  return new RegExp(`${decimal === 'comma' ? ',' : '\\.'}(\\d+)`).exec(cell)?.[1]?.length ?? 0;
}

/**
 * A logger that writes whole seconds or minutes gives several rows one moment. They are spread evenly up to the next
 * moment; those of the last one by the step before.
 */
function spread(timesS: readonly number[]): number[] {
  const spreadS: number[] = [];
  let stepS = 1;
  for (let from = 0; from < timesS.length; ) {
    let to = from + 1;
    while (to < timesS.length && timesS[to] === timesS[from]) to++;
    const lengthS = to < timesS.length ? timesS[to]! - timesS[from]! : stepS;
    for (let index = from; index < to; index++) {
      spreadS.push(timesS[from]! + (lengthS * (index - from)) / (to - from));
    }
    stepS = lengthS;
    from = to;
  }
  return spreadS;
}

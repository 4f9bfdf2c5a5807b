/** Guesses how another logger laid out its file. A person looks at the guess and corrects it. */
import type { ColumnFormat, ColumnTime, CorrectImport, columnDoubts } from '../../../shared/contract/imports.ts';
import type { ColumnUnit } from '../../../shared/contract/ucum-units.ts';
import { unitBehind } from '../../../shared/plain-lines/unit-behind.ts';
import { unitIn, unitsIn } from '../../../shared/plain-lines/written-units.ts';
import type { Encoding } from '../common/text-encoding.ts';
import {
  type CellKind,
  cellKind,
  elapsedUnitIn,
  isTimeHeading,
  positionIn,
  readCell,
  roleIn,
  thousandsIn,
} from './cells.ts';
import { isRowNumbers } from './row-numbers.ts';
import { firstRows, openQuoteLine, type Row } from './split-rows.ts';
import { dateOrder } from './written-times.ts';

export type Doubt = (typeof columnDoubts)[number];

/** What a person has said of a table, while the rest is still to be guessed. */
export type KnownOfColumns = NonNullable<CorrectImport['guess']>;

export interface ColumnGuess {
  format: ColumnFormat;
  doubts: Doubt[];
}

interface Reading extends Pick<ColumnFormat, 'separator' | 'decimal' | 'quotes' | 'thousands'> {
  rows: Row[];
  /** Place among `rows` of the first one that holds readings. */
  first: number;
  width: number;
  /** Kinds of the cells of the rows that hold readings. */
  kinds: CellKind[][];
  data: Row[];
}

const ROWS_LOOKED_AT = 200;
/** Those rows lie in it, unless they are wider than any logger's. */
const CHARACTERS_LOOKED_AT = 2 * 1024 * 1024;
const separators: readonly ColumnFormat['separator'][] = ['semicolon', 'tab', 'comma', 'pipe', 'blanks'];
/** Share of a column's cells that must be of a kind for the column to be of it. */
const MOST = 0.9;

/** @returns undefined when no row of the text holds a number */
export function guessColumns(text: string, encoding: Encoding, known: KnownOfColumns = {}): ColumnGuess | undefined {
  const decimals = known.decimal ? [known.decimal] : (['point', 'comma'] as const);
  const beginning = firstLines(text);
  const readings = (known.separator ? [known.separator] : separators)
    .flatMap((separator) => decimals.map((decimal) => readAs(text, beginning, separator, decimal)))
    .filter((reading) => reading !== undefined)
    .sort(
      (a, b) =>
        weight(b) - weight(a) ||
        share(b) - share(a) ||
        // A date and its time are one cell between tabs, and two between blanks.
        Number(a.separator === 'blanks') - Number(b.separator === 'blanks') ||
        b.width - a.width,
    );
  const best = readings[0];
  if (!best) return undefined;
  const doubts: Doubt[] = [];
  const headings = headingsOf(best);
  const { time, used, doubt } = timeOf(best, headings);
  if (doubt) doubts.push(doubt);
  if (!known.decimal && isCommaDoubt(best, used.length > 0)) doubts.push('decimal');
  const numbered = Array.from({ length: best.width }, (_, column) => column).filter(
    (column) => !used.includes(column) && mostlyA(best, column, ['number'], 0.05),
  );
  const counting = numbered.filter((column) => isRowNumbers(numbersOf(best, column), headings[column] ?? ''));
  const named = unitsIn(headings);
  const unitOf = (column: number) => unitBehind(cellsOf(best, column), best.decimal) ?? named[column];
  const columns = numbered
    .filter((column) => !counting.includes(column))
    .map((column) => columnOf(column, headings[column] ?? '', unitOf(column)));
  if (columns.length === 0) return undefined;
  if (counting.length > 0) doubts.push('rowNumbers');
  if (best.quotes) doubts.push('openQuote');
  if (best.thousands || columns.some(({ column }) => mayBeThousands(best, column, headings[column] ?? '')))
    doubts.push('thousands');
  const unnamed = columns.filter(({ column }) => unitOf(column) === undefined);
  if (unnamed.some(({ column }) => looksFahrenheit(best, column))) doubts.push('fahrenheit');
  else if (unnamed.length > 0) doubts.push('unit');
  if (!columns.some(({ role }) => role === 'water')) {
    const temperatures = columns.filter(({ unit, role }) => ['Cel', '[degF]', 'K'].includes(unit) && role === 'other');
    if (temperatures.length === 1) temperatures[0]!.role = 'water';
    else doubts.push('role');
  }
  return {
    format: {
      encoding,
      separator: best.separator,
      decimal: best.decimal,
      ...(best.thousands && { thousands: best.thousands }),
      ...(best.quotes && { quotes: best.quotes }),
      firstRow: best.first + 1,
      time,
      columns,
      unreadable: 'refuse',
    },
    doubts,
  };
}

/** Whole lines from the beginning of a text: every separator is tried on them. */
function firstLines(text: string): string {
  if (text.length <= CHARACTERS_LOOKED_AT) return text;
  return text.slice(0, text.lastIndexOf('\n', CHARACTERS_LOOKED_AT) + 1) || text;
}

function readAs(
  text: string,
  beginning: string,
  separator: ColumnFormat['separator'],
  decimal: ColumnFormat['decimal'],
): Reading | undefined {
  let rows: Row[];
  const isOpen = openQuoteLine(text, separator) !== undefined;
  const layout = { separator, ...(isOpen && { quotes: 'plain' as const }) };
  try {
    rows = firstRows(beginning, layout, ROWS_LOOKED_AT);
  } catch {
    return undefined;
  }
  const kindsOf = (row: Row) => row.cells.map((cell) => cellKind(cell, decimal));
  const isData = (kinds: CellKind[]) =>
    kinds.some((kind) => kind === 'number') && kinds.filter((kind) => kind === 'text').length * 2 < kinds.length;
  const kinds = rows.map(kindsOf);
  const counts = new Map<number, number>();
  for (const row of kinds) if (isData(row)) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  const width = [...counts].sort(([, a], [, b]) => b - a)[0]?.[0];
  if (width === undefined) return undefined;
  const chosen = rows.flatMap((_, index) => (kinds[index]!.length === width && isData(kinds[index]!) ? [index] : []));
  const data = chosen.map((index) => rows[index]!);
  const thousands = thousandsOf(data, decimal);
  return {
    ...layout,
    decimal,
    ...(thousands && { thousands }),
    rows,
    width,
    first: chosen[0]!,
    data,
    kinds: chosen.map((index) => kinds[index]!),
  };
}

/** What sets thousands apart, where a cell cannot be a number without it. */
function thousandsOf(data: readonly Row[], decimal: ColumnFormat['decimal']): ColumnFormat['thousands'] {
  for (const { cells } of data) {
    for (const cell of cells) {
      const mark = thousandsIn(cell, decimal);
      if (mark) return mark;
    }
  }
  return undefined;
}

/** Rows that hold readings. Any text is rows of one column, so those count half. */
function weight({ data, width }: Reading): number {
  return width === 1 ? data.length / 2 : data.length;
}

/** Of the cells, how many are anything but text. */
function share({ kinds }: Reading): number {
  const cells = kinds.flat();
  return cells.filter((kind) => kind !== 'text').length / cells.length;
}

/** Names and units may stand in two lines, one above the other. */
function headingsOf({ rows, first, width }: Reading): string[] {
  const above = [rows[first - 2], rows[first - 1]].filter((row) => row?.cells.length === width);
  return Array.from({ length: width }, (_, column) =>
    above
      .map((row) => row!.cells[column]!.trim())
      .filter((text) => text !== '')
      .join(' '),
  );
}

function columnOf(column: number, heading: string, unit: ColumnUnit | undefined): ColumnFormat['columns'][number] {
  const position = positionIn(heading);
  return {
    column,
    name: heading.slice(0, 120) || `Column ${column + 1}`,
    unit: unit ?? 'Cel',
    role: roleIn(heading) ?? 'other',
    ...(position && { position }),
  };
}

function mostlyA({ kinds }: Reading, column: number, wanted: readonly CellKind[], least = MOST): boolean {
  const some = kinds.map((row) => row[column]!).filter((kind) => kind !== 'nothing');
  return some.length > 0 && some.filter((kind) => wanted.includes(kind)).length >= least * some.length;
}

function cellsOf({ data }: Reading, column: number): string[] {
  return data.map((row) => row.cells[column]!);
}

function numbersOf(reading: Reading, column: number): number[] {
  return cellsOf(reading, column).flatMap((cell) => {
    const field = readCell(cell, reading);
    return field.kind === 'number' ? [field.value] : [];
  });
}

type TimeGuess = { time: ColumnTime; used: number[]; doubt?: Doubt };

function timeOf(reading: Reading, headings: readonly string[]): TimeGuess {
  const columns = Array.from({ length: reading.width }, (_, column) => column);
  // A heading that says so counts more than numbers that happen to rise: those of a pot on a fire do.
  const ways = [wordedTime, namedTime, risingTime];
  for (const way of ways) {
    for (const column of columns) {
      const found = way(reading, column, headings[column] ?? '');
      if (found) return found;
    }
  }
  return { time: { kind: 'every', everyS: 1 }, used: [], doubt: 'noTime' };
}

/** A column with colons or dates in it. */
function wordedTime(reading: Reading, column: number, heading: string): TimeGuess | undefined {
  if (mostlyA(reading, column, ['dateTime', 'date'])) {
    const order = dateOrder(cellsOf(reading, column));
    const alone = mostlyA(reading, column, ['dateTime']);
    const timeColumn = alone || !mostlyA(reading, column + 1, ['clock']) ? undefined : column + 1;
    const time = { kind: 'dateTime' as const, column, order: order === 'unsure' ? ('dmy' as const) : order };
    const used = timeColumn === undefined ? [column] : [column, timeColumn];
    return {
      time: { ...time, ...(timeColumn !== undefined && { timeColumn }) },
      used,
      ...(order === 'unsure' && { doubt: 'dayMonth' as const }),
    };
  }
  if (!mostlyA(reading, column, ['clock', 'stretch'])) return undefined;
  const texts = cellsOf(reading, column);
  const beginsAtZero = /^0{1,2}:0?\d\b/.test(texts[0]!.trim());
  const elapsed =
    /elapsed|[ée]coul|dur[ée]e/i.test(heading) || beginsAtZero || mostlyA(reading, column, ['stretch'], 0.01);
  if (!elapsed) return { time: { kind: 'clock', column }, used: [column] };
  const twoParts = texts.every((text) => text.split(':').length === 2);
  const minutes = twoParts && (/mm:ss|min/i.test(heading) || texts.some((text) => Number(text.split(':')[0]) >= 24));
  return {
    time: { kind: 'elapsed', column, unit: minutes ? 'mm:ss' : 'h:mm:ss' },
    used: [column],
    ...(twoParts && !minutes && { doubt: 'timeUnit' as const }),
  };
}

/** A column of numbers whose heading says that they are times. One that goes back here and there has mistakes in it. */
function namedTime(reading: Reading, column: number, heading: string): TimeGuess | undefined {
  if (!isTimeHeading(heading)) return undefined;
  const counted = countedOf(reading, column);
  return counted && counted.falling * 2 < counted.values.length ? unitOfTime(counted, column, heading) : undefined;
}

/** A column of numbers that rise by nearly equal steps, or as only a clock's would. */
function risingTime(reading: Reading, column: number, heading: string): TimeGuess | undefined {
  const counted = countedOf(reading, column);
  if (!counted || counted.falling > 0) return undefined;
  const { least, most, values } = counted;
  const found = unitOfTime(counted, column, heading);
  if (found.time.kind !== 'elapsed') return found;
  const even = least > 0 && most <= 1.2 * least + 2 && values.length >= 4 && reading.width > 1;
  return even ? found : undefined;
}

interface Counted {
  values: number[];
  least: number;
  most: number;
  falling: number;
}

function countedOf(reading: Reading, column: number): Counted | undefined {
  if (!mostlyA(reading, column, ['number'])) return undefined;
  const values = numbersOf(reading, column);
  if (values.length < 2 || values.length < MOST * reading.data.length) return undefined;
  const steps = values.slice(1).map((value, index) => value - values[index]!);
  const falling = steps.filter((step) => step < 0).length;
  return { values, falling, least: Math.min(...steps), most: Math.max(...steps) };
}

function unitOfTime({ values, least, most }: Counted, column: number, heading: string): TimeGuess {
  const [first, used] = [values[0]!, [column]];
  if (first > 1e12 && first < 4e12) return { time: { kind: 'unix', column, unit: 'ms' }, used };
  if (first > 1e9 && first < 4e9) return { time: { kind: 'unix', column, unit: 's' }, used };
  // Days since 1899, of any year from 1955 to 2119, with steps of less than a day.
  if (first > 20_000 && first < 80_000 && most > 0 && most < 1) return { time: { kind: 'serial', column }, used };
  const unit = elapsedUnitIn(heading);
  const guessed = unit ?? (values.every(Number.isInteger) && least >= 50 ? 'ms' : 's');
  return { time: { kind: 'elapsed', column, unit: guessed }, used, ...(!unit && { doubt: 'timeUnit' as const }) };
}

/** Whole numbers between commas may be the two halves of numbers with a decimal comma. */
function isCommaDoubt(reading: Reading, timed: boolean): boolean {
  if (reading.separator !== 'comma' || reading.decimal !== 'point') return false;
  const numbers = reading.data.flatMap((row) => row.cells.filter((cell) => cellKind(cell, 'point') === 'number'));
  return numbers.length > 0 && numbers.every((cell) => /^[+-]?\d+$/.test(cell)) && (reading.width > 2 || !timed);
}

/**
 * Numbers with three digits behind what is taken for the decimal mark, among whole ones in the hundreds, or of a unit that
 * nobody measures to the thousandth: "1,050" after "980" may be a thousand and fifty.
 */
function mayBeThousands(reading: Reading, column: number, heading: string): boolean {
  const cells = cellsOf(reading, column);
  const marked = cells.filter((cell) => /[.,]/.test(cell));
  if (marked.length === 0 || !marked.every((cell) => /^[+-]?[1-9]\d{0,2}[.,]\d{3}(?!\d)/.test(cell))) return false;
  return cells.some((cell) => /^[+-]?[1-9]\d{2}\b(?![.,]\d)/.test(cell)) || ['g', 'Pa'].includes(unitIn(heading) ?? '');
}

/** Temperatures without a unit that end where water boils in °F and not in °C. */
function looksFahrenheit(reading: Reading, column: number): boolean {
  const highest = Math.max(...numbersOf(reading, column));
  return highest > 190 && highest < 235;
}

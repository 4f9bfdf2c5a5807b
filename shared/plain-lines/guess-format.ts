import type { PlainFormat } from '../contract/boards.ts';
import { readPlainField } from './field.ts';
import { splitPlainLine } from './split-line.ts';

export interface PlainGuess {
  /** The likeliest reading, or null when no line holds a number. */
  format: PlainFormat | null;
  /** Another reading fits as well ("20,5" is one number or two): a person has to say which. */
  ambiguous: boolean;
  /** The other readings, likeliest first. */
  alternatives: PlainFormat[];
}

type Separator = PlainFormat['separator'];
type Decimal = PlainFormat['decimal'];

interface Reading {
  separator: Separator;
  decimal: Decimal;
  /** Lines that are rows of readings under this reading, split. */
  rows: string[][];
  /** Index of the first row among the lines given. */
  firstRow: number;
  columnCount: number;
  /** Fields that are numbers, of all fields of all rows. */
  numberShare: number;
}

// In order of preference where two fit alike. A comma cannot be both.
const READINGS: readonly (readonly [Separator, Decimal])[] = [
  ['semicolon', 'point'],
  ['tab', 'point'],
  ['comma', 'point'],
  ['semicolon', 'comma'],
  ['tab', 'comma'],
  ['blanks', 'point'],
  ['blanks', 'comma'],
];

/**
 * Guesses how a board lays out its numbers, for a live preview that a person can correct.
 *
 * @param lines what the board printed, whole lines; a dozen is plenty
 */
export function guessPlainFormat(lines: readonly string[]): PlainGuess {
  const readings = READINGS.map(([separator, decimal]) => readAs(lines, separator, decimal)).filter(
    (reading) => reading.rows.length > 0,
  );
  if (readings.length === 0) return { format: null, ambiguous: false, alternatives: [] };
  readings.sort(
    (a, b) =>
      b.rows.length - a.rows.length ||
      b.numberShare - a.numberShare ||
      Number(holdsDecimals(b)) - Number(holdsDecimals(a)) ||
      b.columnCount - a.columnCount,
  );
  const distinct = readings.filter((reading, i) => readings.findIndex((other) => sameValues(other, reading)) === i);
  let best = distinct[0]!;
  const rival = distinct.find(
    (reading) =>
      reading !== best && reading.rows.length === best.rows.length && reading.numberShare === best.numberShare,
  );
  const ambiguous = rival !== undefined && isCommaDoubt(best, rival);
  if (ambiguous && fractionsLookLikeFractions(best.separator === 'comma' ? best : rival)) {
    best = best.separator === 'comma' ? rival : best;
  }
  return {
    format: describe(best, lines),
    ambiguous,
    alternatives: distinct.filter((reading) => reading !== best).map((reading) => describe(reading, lines)),
  };
}

function readAs(lines: readonly string[], separator: Separator, decimal: Decimal): Reading {
  const split = lines.map((line) => splitPlainLine(line, separator));
  const isRow = (fields: string[]) =>
    fields.some((f) => readPlainField(f, decimal).kind === 'number') &&
    fields.every((f) => readPlainField(f, decimal).kind !== 'text');
  const counts = new Map<number, number>();
  for (const fields of split) if (isRow(fields)) counts.set(fields.length, (counts.get(fields.length) ?? 0) + 1);
  let columnCount = 0;
  for (const [count, seen] of counts) if (seen > (counts.get(columnCount) ?? 0)) columnCount = count;
  const rows = split.filter((fields) => fields.length === columnCount && isRow(fields));
  const fields = rows.flat();
  return {
    separator,
    decimal,
    rows,
    firstRow: split.findIndex((f) => f.length === columnCount && isRow(f)),
    columnCount,
    numberShare: fields.filter((f) => readPlainField(f, decimal).kind === 'number').length / Math.max(1, fields.length),
  };
}

function holdsDecimals(reading: Reading): boolean {
  const mark = reading.decimal === 'point' ? '.' : ',';
  return reading.rows.flat().some((field) => field.includes(mark));
}

/** Two readings that find the same numbers in the same columns are one to the person. */
function sameValues(a: Reading, b: Reading): boolean {
  return valuesOf(a) === valuesOf(b);
}

function valuesOf(reading: Reading): string {
  return JSON.stringify(reading.rows.map((row) => row.map((field) => readPlainField(field, reading.decimal))));
}

function isCommaDoubt(a: Reading, b: Reading): boolean {
  return (a.separator === 'comma') !== (b.separator === 'comma') && (a.decimal === 'comma') !== (b.decimal === 'comma');
}

/**
 * Whether, read as columns of whole numbers, every second column looks like the digits behind a decimal comma: always the
 * same count of digits, zeros in front now and then ("05"), or one pair of columns only with short second halves.
 */
function fractionsLookLikeFractions(asColumns: Reading): boolean {
  if (asColumns.columnCount % 2 !== 0) return false;
  const seconds = asColumns.rows.flatMap((row) => row.filter((_, i) => i % 2 === 1));
  const sameLength = new Set(seconds.map((f) => f.length)).size === 1 && seconds[0]!.length <= 3;
  const zerosInFront = seconds.some((f) => /^0\d/.test(f));
  return sameLength && (zerosInFront || asColumns.columnCount === 2);
}

function describe(reading: Reading, lines: readonly string[]): PlainFormat {
  const header = headerOf(reading, lines);
  const time = timeColumnOf(reading, header);
  const columns = Array.from({ length: reading.columnCount }, (_, column) => column)
    .filter((column) => column !== time?.column)
    .map((column) => {
      const name = header?.[column] || labelOf(reading.rows[0]![column]!) || `Column ${column + 1}`;
      return { column, name: name.slice(0, 120), unit: unitOf(name) };
    });
  return {
    separator: reading.separator,
    decimal: reading.decimal,
    headerLines: header ? reading.firstRow : 0,
    ...(time && columns.length > 0 ? { timeColumn: time.column, timeUnit: time.unit } : {}),
    columns: columns.length > 0 ? columns : [{ column: 0, name: header?.[0] || 'Column 1', unit: 'Cel' }],
  };
}

function headerOf(reading: Reading, lines: readonly string[]): string[] | null {
  if (reading.firstRow < 1) return null;
  const fields = splitPlainLine(lines[reading.firstRow - 1]!, reading.separator);
  return fields.length === reading.columnCount ? fields : null;
}

function labelOf(field: string): string | null {
  return /^([A-Za-z_][\w .-]{0,20})[=:]/.exec(field)?.[1]?.trim() ?? null;
}

function unitOf(name: string): PlainFormat['columns'][number]['unit'] {
  if (/\bkg\b/i.test(name)) return 'kg';
  if (/\bPa\b/.test(name)) return 'Pa';
  if (/%/.test(name)) return '%';
  if (/\buv\b|µv|microvolt/i.test(name)) return 'uV';
  return 'Cel';
}

/** A first column that rises by nearly equal steps is the board's clock, more surely so when its title says it. */
function timeColumnOf(reading: Reading, header: string[] | null): { column: number; unit: 's' | 'ms' } | null {
  const times = reading.rows.map((row) => readPlainField(row[0]!, reading.decimal));
  if (times.length < 3) return null;
  const steps: number[] = [];
  for (let i = 1; i < times.length; i++) {
    const [before, now] = [times[i - 1]!, times[i]!];
    if (before.kind !== 'number' || now.kind !== 'number' || now.value <= before.value) return null;
    steps.push(now.value - before.value);
  }
  const title = header?.[0] ?? labelOf(reading.rows[0]![0]!) ?? '';
  const titled = /time|temps|zeit|millis|clock|\bms\b|\bsec|^t$|uptime/i.test(title);
  const even = Math.max(...steps) <= 1.2 * Math.min(...steps) + 2;
  if (!titled && !(even && reading.columnCount > 1 && steps.length >= 4 && Math.min(...steps) >= 1)) return null;
  const whole = times.every((t) => t.kind === 'number' && Number.isInteger(t.value));
  const inMs = /\bms\b|milli/i.test(title) || (!/\bs\b|sec/i.test(title) && whole && Math.min(...steps) >= 50);
  return { column: 0, unit: inMs ? 'ms' : 's' };
}

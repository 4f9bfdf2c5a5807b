/** The possible layouts of lines as columns, the most likely first. */
import type { PlainLayout } from './cells.ts';
import { type PlainField, readPlainField } from './field.ts';
import { splitPlainLine } from './split-line.ts';
import { unitWritten } from './written-units.ts';

type Separator = PlainLayout['separator'];
type Decimal = PlainLayout['decimal'];

export interface ColumnLayout {
  separator: Separator;
  decimal: Decimal;
  /** Lines that are rows of readings under this layout, split into fields. */
  rows: string[][];
  /** The same lines, unsplit. */
  lines: string[];
  /** Index of the first row among the lines given. */
  firstRow: number;
  columnCount: number;
  /** Fields that are numbers, of all fields of all rows. */
  numberShare: number;
  /** Whether text stands in the same columns of every row, next to the numbers. */
  hasText: boolean;
}

// In order of preference where two fit equally. A comma cannot be both.
const LAYOUTS: readonly (readonly [Separator, Decimal])[] = [
  ['semicolon', 'point'],
  ['tab', 'point'],
  ['comma', 'point'],
  ['semicolon', 'comma'],
  ['tab', 'comma'],
  ['blanks', 'point'],
  ['blanks', 'comma'],
];

/**
 * @param known the parts of the layout that a person has chosen
 * @returns those that find different numbers, and whether the second is as likely as the first
 */
export function columnLayouts(
  lines: readonly string[],
  known: Partial<PlainLayout>,
): { layouts: ColumnLayout[]; ambiguous: boolean } {
  const possible = LAYOUTS.filter(
    ([separator, decimal]) => separator === (known.separator ?? separator) && decimal === (known.decimal ?? decimal),
  );
  const numbersOnly = read(lines, possible, false);
  const layouts = distinct(numbersOnly.length > 0 ? numbersOnly : read(lines, possible, true));
  const [first] = layouts;
  const rival = layouts.find(
    (layout) =>
      layout !== first && layout.rows.length === first!.rows.length && layout.numberShare === first!.numberShare,
  );
  if (!first || !rival || !isCommaDoubt(first, rival)) return { layouts, ambiguous: false };
  const [asColumns, asDecimals] = first.separator === 'comma' ? [first, rival] : [rival, first];
  const best = fractionsLookLikeFractions(asColumns) ? asDecimals : first;
  return { layouts: [best, ...layouts.filter((layout) => layout !== best)], ambiguous: true };
}

function read(
  lines: readonly string[],
  possible: readonly (readonly [Separator, Decimal])[],
  hasText: boolean,
): ColumnLayout[] {
  return possible
    .map(([separator, decimal]) => readAs(lines, separator, decimal, hasText))
    .filter((layout) => layout.rows.length > 0)
    .sort(
      (a, b) =>
        b.rows.length - a.rows.length ||
        // Blanks split text into several fields, so that more of the fields are numbers.
        (hasText ? Number(a.separator === 'blanks') - Number(b.separator === 'blanks') : 0) ||
        b.numberShare - a.numberShare ||
        Number(holdsDecimals(b)) - Number(holdsDecimals(a)) ||
        b.columnCount - a.columnCount,
    );
}

function readAs(lines: readonly string[], separator: Separator, decimal: Decimal, hasText: boolean): ColumnLayout {
  const split = lines.map((line) => splitPlainLine(line, separator));
  const shapes = split.map((fields) => shapeOf(fields, decimal, hasText));
  const counts = new Map<string, number>();
  for (const shape of shapes) if (shape !== undefined) counts.set(shape, (counts.get(shape) ?? 0) + 1);
  let usual: string | undefined;
  for (const [shape, seen] of counts) if (usual === undefined || seen > counts.get(usual)!) usual = shape;
  const isRow = (index: number) => usual !== undefined && shapes[index] === usual;
  const rows = split.filter((_, index) => isRow(index));
  const fields = rows.flat();
  return {
    separator,
    decimal,
    rows,
    lines: lines.filter((_, index) => isRow(index)),
    firstRow: usual === undefined ? -1 : shapes.indexOf(usual),
    columnCount: rows[0]?.length ?? 0,
    numberShare: fields.filter((f) => readPlainField(f, decimal).kind === 'number').length / Math.max(1, fields.length),
    hasText,
  };
}

/** The shape of a row of readings: the number of fields, and which of them are text; undefined for other lines. */
function shapeOf(fields: readonly string[], decimal: Decimal, hasText: boolean): string | undefined {
  const kinds = fields.map((field) => readPlainField(field, decimal).kind);
  if (!kinds.includes('number')) return undefined;
  if (!hasText) return kinds.includes('text') ? undefined : String(fields.length);
  // A sign separated from its number would be lost.
  if (fields.some((field, index) => kinds[index] === 'text' && /[+-]$/.test(field))) return undefined;
  return kinds.map((kind) => (kind === 'text' ? 't' : 'n')).join('');
}

function holdsDecimals(layout: ColumnLayout): boolean {
  const mark = layout.decimal === 'point' ? '.' : ',';
  return layout.rows.flat().some((field) => field.includes(mark));
}

/** Removes layouts that find the same numbers in the same columns as an earlier one. */
function distinct(layouts: readonly ColumnLayout[]): ColumnLayout[] {
  const values = layouts.map(({ rows, decimal }) =>
    JSON.stringify(rows.map((row) => row.map((field): PlainField => readPlainField(field, decimal)))),
  );
  return layouts.filter((_, index) => values.indexOf(values[index]!) === index);
}

function isCommaDoubt(a: ColumnLayout, b: ColumnLayout): boolean {
  return (a.separator === 'comma') !== (b.separator === 'comma') && (a.decimal === 'comma') !== (b.decimal === 'comma');
}

/**
 * Whether, read as columns of whole numbers, every second column looks like the digits after a decimal comma: always
 * the same number of digits, sometimes with leading zeros ("05"), or one pair of columns only with short second halves.
 */
function fractionsLookLikeFractions(asColumns: ColumnLayout): boolean {
  if (asColumns.columnCount % 2 !== 0) return false;
  const seconds = asColumns.rows.flatMap((row) => row.filter((_, i) => i % 2 === 1));
  const sameLength = new Set(seconds.map((f) => f.length)).size === 1 && seconds[0]!.length <= 3;
  const zerosInFront = seconds.some((f) => /^0\d/.test(f));
  return sameLength && (zerosInFront || asColumns.columnCount === 2);
}

/**
 * Returns the headings of the columns: the line above the first row, with the one above it where it contains only units.
 */
export function headingsOf(
  { separator, decimal, firstRow, columnCount, hasText }: ColumnLayout,
  lines: readonly string[],
) {
  // With blanks as separators, every sentence looks like columns of words.
  if (hasText && separator === 'blanks') return undefined;
  const at = (index: number) => {
    const fields = splitPlainLine(lines[index] ?? '', separator);
    const isText = fields.some((field) => readPlainField(field, decimal).kind === 'text' || unitWritten(field));
    const isRow = hasText && fields.some((field) => field !== '' && readPlainField(field, decimal).kind !== 'text');
    return fields.length === columnCount && isText && !isRow ? fields : undefined;
  };
  const near = at(firstRow - 1);
  if (!near) {
    // When reading begins in the middle, a board prints its headings again later, if at all.
    const later = columnCount > 1 ? lines.findIndex((_, index) => index > firstRow && at(index) !== undefined) : -1;
    const fields = later < 0 ? undefined : at(later)!;
    return fields?.some((field) => readPlainField(field, decimal).kind === 'number') ? undefined : fields;
  }
  const isUnits = near.every((field) => field === '' || /^\(?m?s\)?$/.test(field) || unitWritten(field) !== undefined);
  const names = isUnits ? at(firstRow - 2) : undefined;
  return names ? near.map((unit, index) => `${names[index]} (${unit})`.replace(' ()', '')) : near;
}

import { parse } from 'csv-parse/sync';
import type { ColumnFormat } from '../../../shared/contract/imports.ts';
import { splitPlainLine } from '../../../shared/plain-lines/split-line.ts';

export interface Row {
  /** Line of the file, from 1, on which the row ends. */
  line: number;
  cells: string[];
}

const delimiters: Record<Exclude<ColumnFormat['separator'], 'blanks'>, string> = {
  comma: ',',
  semicolon: ';',
  tab: '\t',
  pipe: '|',
};

/** What of a format says where rows and cells end. */
export type Layout = Pick<ColumnFormat, 'separator' | 'quotes'>;

/**
 * Goes through the rows of a text; blank ones are left out. Quotes are understood and forgiven where they are wrong, a row
 * may have any number of cells.
 * @param to the last row wanted
 */
export function eachRow(text: string, { separator, quotes }: Layout, use: (row: Row) => void, to?: number): void {
  const take = ({ line, cells }: Row) => use({ line, cells: cells.slice(0, MOST_CELLS).map(withinReason) });
  if (separator === 'blanks') {
    eachLine(text, (line) => splitPlainLine(line, separator), take, to);
    return;
  }
  if (quotes === 'plain') {
    eachLine(text, (line) => cellsOf(line, delimiters[separator]), take, to);
    return;
  }
  parse(text, {
    delimiter: delimiters[separator],
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    skip_records_with_empty_values: true,
    trim: separator !== 'tab',
    ...(to !== undefined && { to }),
    on_record(cells: string[], { lines }: { lines: number }) {
      take({ line: lines, cells: separator === 'tab' ? cells.map((cell) => cell.trim()) : cells });
      // Nothing is collected: a long file would be in memory twice.
      return null;
    },
  });
}

/** More than any logger has channels. */
const MOST_CELLS = 512;
/** Longer than any number, time or heading. */
const LONGEST_CELL = 200;

/** What is too long to be a reading is text from its first character on, and short enough to be looked at in no time. */
function withinReason(cell: string): string {
  return cell.length <= LONGEST_CELL ? cell : `…${cell.slice(0, LONGEST_CELL)}`;
}

/** Cells of a line of its own; the quotation mark that a line leaves open encloses nothing. */
function cellsOf(line: string, delimiter: string): string[] {
  const isOpen = countQuotes(line) % 2 === 1;
  const cells = isOpen
    ? line.replaceAll('"', '').split(delimiter)
    : (parse(line, { delimiter, relax_quotes: true })[0] ?? []);
  return cells.map((cell) => cell.trim());
}

function countQuotes(line: string): number {
  return line.split('"').length - 1;
}

function eachLine(
  text: string,
  cellsOfLine: (line: string) => string[],
  take: (row: Row) => void,
  to = Number.POSITIVE_INFINITY,
): void {
  let line = 0;
  let rows = 0;
  for (const [raw] of text.matchAll(/[^\r\n]*(?:\r\n|\r|\n|$)/g)) {
    line++;
    const bare = raw.replace(/\r?\n?$/, '');
    if (bare.trim() === '') continue;
    const cells = cellsOfLine(bare);
    if (cells.every((cell) => cell === '')) continue;
    if (++rows > to) return;
    take({ line, cells });
  }
}

/**
 * The line where a quotation mark is opened that would swallow rows: no other closes it, or lines of numbers lie before the
 * one that does. A heading or a note in two lines is none.
 */
export function openQuoteLine(text: string, separator: ColumnFormat['separator']): number | undefined {
  if (separator === 'blanks' || !text.includes('"')) return undefined;
  const numberBetween = new RegExp(`^[+−-]?[.,:/T -]*\\d[^${delimiters[separator]}"]*\\${delimiters[separator]}`);
  let opened: number | undefined;
  let line = 0;
  for (const [raw] of text.matchAll(/[^\r\n]*(?:\r\n|\r|\n|$)/g)) {
    line++;
    if (opened !== undefined && numberBetween.test(raw.trimStart())) return opened;
    if (countQuotes(raw) % 2 === 1) opened = opened === undefined ? line : undefined;
  }
  return opened;
}

export function firstRows(text: string, layout: Layout, count: number): Row[] {
  const rows: Row[] = [];
  eachRow(text, layout, (row) => rows.push(row), count);
  return rows;
}

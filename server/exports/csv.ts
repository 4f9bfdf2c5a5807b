import { type Cell, heading, type Table } from './table.ts';

/** What a spreadsheet would run rather than show, in its half and full widths. */
const STARTS_A_FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;
const NEEDS_QUOTES = /[",\r\n]|^\s|\s$/;

/**
 * A table as CSV (RFC 4180): commas, points in numbers whatever the locale, CRLF, names and units in the first line. Text
 * that a spreadsheet would take for a formula gets an apostrophe in front; numbers never do.
 */
export function* csv(table: Table): Generator<string> {
  yield line(table.columns.map((column) => text(heading(column))));
  for (const page of table.pages()) {
    const rows = page[0]?.length ?? 0;
    let lines = '';
    for (let row = 0; row < rows; row++) lines += line(page.map((column) => cell(column[row] ?? null)));
    yield lines;
  }
}

function line(cells: string[]): string {
  return `${cells.join(',')}\r\n`;
}

function cell(value: Cell): string {
  if (value === null) return '';
  return typeof value === 'number' ? String(value) : text(value);
}

function text(value: string): string {
  const harmless = STARTS_A_FORMULA.test(value) ? `'${value}` : value;
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

import { type Cell, heading, type Table, type TableColumn, timestampText } from './table.ts';

/** What a spreadsheet would run rather than show, in half and full width, and the apostrophe that keeps it from doing so. */
const NEEDS_APOSTROPHE = /^(?:\s*[=+\-@＝＋－＠']|[\t\r\n])/;
const NEEDS_QUOTES = /[",\r\n]|^\s|\s$/;

/** How the rule below is told to whoever reads a file. */
export const APOSTROPHE_RULE =
  'Text that begins with = + - @ or an apostrophe, or with a tab or a line break, has one apostrophe in front, so that no spreadsheet runs it; take one leading apostrophe off to get the text as it was written. Numbers never have one.';

/**
 * A table as CSV (RFC 4180): commas, points in numbers whatever the locale, CRLF, names and units in the first line. Text
 * that a spreadsheet would take for a formula gets an apostrophe in front, and so does text that begins with one: taking
 * one off gives back every text. A NUL, which no reader of CSV agrees on, becomes U+FFFD.
 */
export function* csv(table: Table): Generator<string> {
  yield line(table.columns.map((column) => text(heading(column))));
  for (const page of table.pages()) {
    const columns = page.map((column, index) => cells(column, table.columns[index]!));
    let lines = '';
    for (let row = 0; row < (columns[0]?.length ?? 0); row++) lines += line(columns.map((column) => column[row]!));
    yield lines;
  }
}

function line(cells: string[]): string {
  return `${cells.join(',')}\r\n`;
}

function cells(values: readonly Cell[], { type }: TableColumn): string[] {
  // Many columns say the same in row after row.
  let [last, written]: [Cell, string] = [null, ''];
  return values.map((value) => {
    if (value !== last) [last, written] = [value, cell(value, type)];
    return written;
  });
}

function cell(value: Cell, type: TableColumn['type']): string {
  if (value === null) return '';
  if (typeof value === 'string') return text(value);
  return type === 'timestamp' ? timestampText(value) : String(value);
}

function text(value: string): string {
  const harmless = (NEEDS_APOSTROPHE.test(value) ? `'${value}` : value).replaceAll('\u0000', '\ufffd');
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/**
 * The sheets of a workbook, written as they are read. Text is always stored as text, so that a cell beginning with "=" is
 * never a formula.
 */
import { escapeMarkup } from '../base/markup.ts';
import { type Cell, heading, type Table, type TableColumn } from './table.ts';
import { HEADING, leftStyleOf, PLAIN, styleOf } from './xlsx-formats.ts';
import { columnLetters, MAIN, RELATIONS, XML } from './xlsx-names.ts';

/** What a spreadsheet can hold (ECMA-376 limits as the format's programs implement them). */
export const ROWS_BELOW_HEADINGS = 1_048_575;
const CHARACTERS_PER_CELL = 32_767;

/** Widths in characters; a longer text runs over the cells beside it. */
const [NARROWEST, WIDEST, OF_TIMESTAMP] = [10, 60, 20];
/** How many rows are looked at for the width of a column. */
const LOOKED_AT = 200;

/** The serial number that spreadsheets give to 1970-01-01. */
const EPOCH_DAY = 25_569;
const MS_PER_DAY = 86_400_000;

/** The headings of a table and some of its rows, a page of them at a time. */
export function* tableWorksheet(table: Table, pages: Iterable<readonly (readonly Cell[])[]>): Generator<string> {
  yield begin('', widths(table));
  const headings = table.columns.map((column, index) => cellWriter(index, column, HEADING)(1, heading(column)));
  yield row(1, headings.join(''));
  const writers = table.columns.map((column, index) => cellWriter(index, column, styleOf(column)));
  let number = 1;
  for (const page of pages) {
    let rows = '';
    for (let at = 0; at < (page[0]?.length ?? 0); at++) {
      number++;
      let cells = '';
      for (let column = 0; column < writers.length; column++)
        cells += writers[column]!(number, page[column]![at] ?? null);
      rows += row(number, cells);
    }
    yield rows;
  }
  yield '</sheetData></worksheet>';
}

/** A table of one row on its side: a line for each column that is not blank, and a drawing beside them. */
export function* propertiesWorksheet(table: Table): Generator<string> {
  const lines = table.columns.flatMap((column, index) => {
    const value = [...table.pages()][0]?.[index]?.[0] ?? null;
    return value === null ? [] : [{ column, value }];
  });
  const longest = (texts: readonly string[]) => Math.max(...texts.map(({ length }) => length));
  yield begin(ON_ONE_PAGE, [
    width(longest(lines.map(({ column }) => heading(column)))),
    width(Math.max(OF_TIMESTAMP, longest(lines.map(({ value }) => String(value))))),
  ]);
  const text = { name: '', type: 'text', description: '' } as const;
  yield row(1, cellWriter(0, text, HEADING)(1, 'property') + cellWriter(1, text, HEADING)(1, 'value'));
  for (const [index, { column, value }] of lines.entries()) {
    const number = index + 2;
    const name = cellWriter(0, text, PLAIN)(number, heading(column));
    yield row(number, name + cellWriter(1, column, leftStyleOf(column))(number, value));
  }
  yield '</sheetData><pageSetup orientation="landscape"/><drawing r:id="rId1"/></worksheet>';
}

/** When printed. */
const ON_ONE_PAGE = '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>';

function begin(properties: string, columnWidths: readonly number[]): string {
  const cols = columnWidths.map((each, index) => {
    return `<col min="${index + 1}" max="${index + 1}" width="${each}" customWidth="1"/>`;
  });
  return `${XML}<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONS}">${properties}<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><cols>${cols.join('')}</cols><sheetData>`;
}

/** Wide enough for the heading and, of texts, for what stands in the first rows. */
function widths({ columns, pages }: Table): number[] {
  const [page = []] = pages();
  return columns.map((column, index) => {
    if (column.type === 'timestamp') return width(OF_TIMESTAMP);
    const texts = column.type === 'text' ? (page[index] ?? []).slice(0, LOOKED_AT) : [];
    return width(Math.max(heading(column).length, ...texts.map((text) => String(text ?? '').length)));
  });
}

/** With room for the margins of the cell. */
function width(characters: number): number {
  return Math.min(WIDEST, Math.max(NARROWEST, characters)) + 2;
}

/** Addresses may be left out by the standard, but many readers ask for them. */
function row(number: number, cells: string): string {
  return `<row r="${number}">${cells}</row>`;
}

/** What writes the cells of one column: most of what it writes is the same in every row, often the value too. */
function cellWriter(column: number, { type }: TableColumn, style: number) {
  const begin = `<c r="${columnLetters(column)}`;
  const styled = style === PLAIN ? '"' : `" s="${style}"`;
  let [last, rest]: [Cell, string] = [null, ''];
  return (rowNumber: number, value: Cell): string => {
    if (value === null) return '';
    if (value !== last) [last, rest] = [value, styled + content(value, type)];
    return begin + rowNumber + rest;
  };
}

/** From the type of a cell to its end. */
function content(value: number | string, type: TableColumn['type']): string {
  // A timestamp is stored as days and shown as a date.
  if (typeof value === 'number') return `><v>${type === 'timestamp' ? value / MS_PER_DAY + EPOCH_DAY : value}</v></c>`;
  const text = escapeMarkup(value.slice(0, CHARACTERS_PER_CELL));
  return ` t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
}

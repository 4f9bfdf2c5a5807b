/**
 * Spreadsheet workbook (Office Open XML, ECMA-376), one sheet a table, written as it is read.
 * Text is always stored as text, so that a cell beginning with "=" is never a formula.
 */
import { escapeMarkup } from '../base/markup.ts';
import { type Cell, heading, type Table } from './table.ts';
import { type ZipEntry, zip } from './zip.ts';

/** What a spreadsheet can hold (ECMA-376 limits as the format's programs implement them). */
const rowsPerWorksheet = 1_048_576;
const charactersPerCell = 32_767;

const xml = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const relations = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packageRelations = 'http://schemas.openxmlformats.org/package/2006/relationships';
const spreadsheet = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/**
 * Write tables as a workbook.
 * A table longer than a sheet can be goes on in further sheets ("readings", "readings 2").
 * @returns the bytes of the file, piece by piece
 */
export function* xlsx(tables: readonly Table[]): Generator<Uint8Array> {
  const names: string[] = [];
  function* entries(): Generator<ZipEntry> {
    for (const table of tables) {
      let part = 0;
      const rest = rows(table);
      let first = rest.next();
      do {
        part++;
        const name = worksheetName(part === 1 ? table.name : `${table.name} ${part}`);
        names.push(name);
        const start = first;
        yield { path: `xl/worksheets/sheet${names.length}.xml`, chunks: () => worksheet(table, start, rest) };
        first = rest.next();
      } while (!first.done);
    }
    yield* frame(names);
  }
  yield* zip(entries());
}

function* rows(table: Table): Generator<Cell[]> {
  for (const page of table.pages()) {
    const length = page[0]?.length ?? 0;
    for (let row = 0; row < length; row++) yield page.map((column) => column[row] ?? null);
  }
}

function* worksheet(table: Table, first: IteratorResult<Cell[]>, rest: Iterator<Cell[]>): Generator<string> {
  yield `${xml}<worksheet xmlns="${main}"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><sheetData>`;
  yield worksheetRow(1, table.columns.map(heading));
  let next = first;
  for (let row = 2; !next.done; row++) {
    yield worksheetRow(row, next.value);
    if (row === rowsPerWorksheet) break;
    next = rest.next();
  }
  yield '</sheetData></worksheet>';
}

/** Addresses may be left out by the standard, but many readers ask for them. */
function worksheetRow(number: number, cells: readonly Cell[]): string {
  return `<row r="${number}">${cells.map((value, column) => cell(`${columnLetters(column)}${number}`, value)).join('')}</row>`;
}

function cell(address: string, value: Cell): string {
  if (value === null) return '';
  if (typeof value === 'number') return `<c r="${address}"><v>${value}</v></c>`;
  const text = escapeMarkup(value.slice(0, charactersPerCell));
  return `<c r="${address}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
}

/** 0 is A, 25 is Z, 26 is AA. */
function columnLetters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnLetters(Math.floor(column / 26) - 1) + last;
}

/** At most 31 signs, none of them one that spreadsheet programs refuse. */
function worksheetName(name: string): string {
  return name.replace(/[\\/*?:[\]]/g, ' ').slice(0, 31);
}

function* frame(names: readonly string[]): Generator<ZipEntry> {
  const file = (path: string, text: string): ZipEntry => ({ path, chunks: () => [xml + text] });
  const each = (write: (number: number, name: string) => string) =>
    names.map((name, index) => write(index + 1, name)).join('');
  yield file(
    'xl/workbook.xml',
    `<workbook xmlns="${main}" xmlns:r="${relations}"><sheets>${each((number, name) => `<sheet name="${escapeMarkup(name)}" sheetId="${number}" r:id="rId${number}"/>`)}</sheets></workbook>`,
  );
  yield file(
    'xl/_rels/workbook.xml.rels',
    `<Relationships xmlns="${packageRelations}">${each((number) => `<Relationship Id="rId${number}" Type="${relations}/worksheet" Target="worksheets/sheet${number}.xml"/>`)}</Relationships>`,
  );
  yield file(
    '_rels/.rels',
    `<Relationships xmlns="${packageRelations}"><Relationship Id="rId1" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
  );
  yield file(
    '[Content_Types].xml',
    `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${spreadsheet}.sheet.main+xml"/>${each((number) => `<Override PartName="/xl/worksheets/sheet${number}.xml" ContentType="${spreadsheet}.worksheet+xml"/>`)}</Types>`,
  );
}

/** Spreadsheet workbook (Office Open XML, ECMA-376), one sheet a table, written as it is read. */
import { escapeMarkup } from '../base/markup.ts';
import type { Cell, Table } from './table.ts';
import { chartPart, drawingPart, type TablePart } from './xlsx-chart.ts';
import { stylesPart } from './xlsx-formats.ts';
import { CONTENT_TYPES, MAIN, RELATIONS, relationsPart, XML } from './xlsx-names.ts';
import { propertiesWorksheet, ROWS_BELOW_HEADINGS, tableWorksheet } from './xlsx-worksheet.ts';
import { type ZipEntry, zip } from './zip.ts';

/** What the workbook is about. */
export interface Cover {
  /** Of the chart. */
  readonly title: string;
  /** Of one row, which stands on its side. */
  readonly table: Table;
}

/**
 * Write tables as a workbook.
 * A table longer than a sheet can be goes on in further sheets ("readings", "readings 2").
 * @param cover the first sheet, with a chart of the columns that have a role
 * @returns the bytes of the file, piece by piece
 */
export function* xlsx(tables: readonly Table[], cover?: Cover): Generator<Uint8Array> {
  const worksheets: string[] = [];
  function* entries(): Generator<ZipEntry> {
    if (cover) {
      worksheets.push(worksheetName(cover.table.name));
      yield { path: 'xl/worksheets/sheet1.xml', chunks: () => propertiesWorksheet(cover.table) };
    }
    const parts: TablePart[] = [];
    for (const table of tables) {
      const rest = pagesOf(table);
      for (let number = 1; number === 1 || !rest.isDone(); number++) {
        let rows = 0;
        function* sheetful(): Generator<Page> {
          for (let page = rest.take(ROWS_BELOW_HEADINGS); page; page = rest.take(ROWS_BELOW_HEADINGS - rows)) {
            rows += lengthOf(page);
            yield page;
          }
        }
        const worksheet = worksheetName(number === 1 ? table.name : `${table.name} ${number}`);
        worksheets.push(worksheet);
        yield {
          path: `xl/worksheets/sheet${worksheets.length}.xml`,
          chunks: () => tableWorksheet(table, sheetful()),
        };
        parts.push({ worksheet, table, rows });
      }
    }
    if (cover) yield* chart(cover.title, parts);
    yield* frame(worksheets, cover !== undefined);
  }
  yield* zip(entries());
}

type Page = readonly (readonly Cell[])[];

const lengthOf = (page: Page) => page[0]?.length ?? 0;

/** The pages of a table, of which some may be taken in two parts. */
function pagesOf(table: Table) {
  const pages = table.pages()[Symbol.iterator]();
  const next = (): Page | undefined => {
    for (let page = pages.next(); !page.done; page = pages.next()) if (lengthOf(page.value) > 0) return page.value;
    return undefined;
  };
  let page = next();
  return {
    isDone: () => page === undefined,
    /** The next page or its first `most` rows; undefined when there is none, or nothing may be taken. */
    take(most: number): Page | undefined {
      const taken = page;
      if (!taken || most === 0) return undefined;
      const isWhole = lengthOf(taken) <= most;
      page = isWhole ? next() : taken.map((column) => column.slice(most));
      return isWhole ? taken : taken.map((column) => column.slice(0, most));
    },
  };
}

/** At most 31 signs, none of them one that spreadsheet programs refuse. */
function worksheetName(name: string): string {
  return name.replace(/[\\/*?:[\]']/g, ' ').slice(0, 31);
}

const file = (path: string, text: string): ZipEntry => ({ path, chunks: () => [XML + text] });

/** On the first sheet. */
function* chart(title: string, parts: readonly TablePart[]): Generator<ZipEntry> {
  const relationTo = (type: string, target: string) => relationsPart([{ type, target }]);
  yield file('xl/worksheets/_rels/sheet1.xml.rels', relationTo('drawing', '../drawings/drawing1.xml'));
  yield file('xl/drawings/drawing1.xml', drawingPart());
  yield file('xl/drawings/_rels/drawing1.xml.rels', relationTo('chart', '../charts/chart1.xml'));
  yield file('xl/charts/chart1.xml', chartPart(title, parts));
}

function* frame(worksheets: readonly string[], hasChart: boolean): Generator<ZipEntry> {
  const listed = worksheets.map((name, index) => {
    return `<sheet name="${escapeMarkup(name)}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`;
  });
  yield file(
    'xl/workbook.xml',
    `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${listed.join('')}</sheets></workbook>`,
  );
  yield file(
    'xl/_rels/workbook.xml.rels',
    relationsPart([
      ...worksheets.map((_, index) => ({ type: 'worksheet', target: `worksheets/sheet${index + 1}.xml` })),
      { type: 'styles', target: 'styles.xml' },
    ]),
  );
  yield file('xl/styles.xml', stylesPart());
  yield file('_rels/.rels', relationsPart([{ type: 'officeDocument', target: 'xl/workbook.xml' }]));
  yield file('[Content_Types].xml', contentTypesPart(worksheets.length, hasChart));
}

function contentTypesPart(worksheets: number, hasChart: boolean): string {
  const office = 'application/vnd.openxmlformats-officedocument';
  const parts = [
    ['/xl/workbook.xml', `${office}.spreadsheetml.sheet.main+xml`],
    ['/xl/styles.xml', `${office}.spreadsheetml.styles+xml`],
    ...Array.from({ length: worksheets }, (_, index) => [
      `/xl/worksheets/sheet${index + 1}.xml`,
      `${office}.spreadsheetml.worksheet+xml`,
    ]),
    ...(hasChart
      ? [
          ['/xl/drawings/drawing1.xml', `${office}.drawing+xml`],
          ['/xl/charts/chart1.xml', `${office}.drawingml.chart+xml`],
        ]
      : []),
  ];
  const overrides = parts.map(([name, type]) => `<Override PartName="${name}" ContentType="${type}"/>`);
  const defaults = [
    ['rels', 'application/vnd.openxmlformats-package.relationships+xml'],
    ['xml', 'application/xml'],
  ].map(([extension, type]) => `<Default Extension="${extension}" ContentType="${type}"/>`);
  return `<Types xmlns="${CONTENT_TYPES}">${defaults.join('')}${overrides.join('')}</Types>`;
}

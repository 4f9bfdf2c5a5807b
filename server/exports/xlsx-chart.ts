/** The chart of a workbook: readings over elapsed time, drawn by the spreadsheet from the cells themselves (ECMA-376, DrawingML charts). */
import { curveStyleOf } from '../../shared/plot/curve-styles.ts';
import { paperInks } from '../../shared/plot/inks.ts';
import { escapeMarkup } from '../base/markup.ts';
import { heading, type Table, type TableColumn } from './table.ts';
import { CHART, columnLetters, DRAWING, RELATIONS, SPREADSHEET_DRAWING } from './xlsx-names.ts';

/** Rows of a table that lie on one sheet. */
export interface TablePart {
  readonly worksheet: string;
  readonly table: Table;
  readonly rows: number;
}

/** Of a dot, in points. */
const [LARGE, SMALL] = [6, 3];
/** With fewer rows the dots stand so far from each other that small ones are hard to see. */
const MANY_ROWS = 300;

/**
 * Dots and no lines: a line would cross the gaps, and where several boards take turns, it would never be drawn.
 * @param parts of the tables whose columns have roles; temperatures are drawn, over the first column
 */
export function chartPart(title: string, parts: readonly TablePart[]): string {
  const curves = parts.flatMap((part) =>
    part.table.columns.flatMap((column, index) => (part.rows > 0 && isDrawn(column) ? [{ part, column, index }] : [])),
  );
  const series = curves.map(({ part, column, index }, order) => {
    const range = (of: number) => `'${part.worksheet}'!$${columnLetters(of)}$2:$${columnLetters(of)}$${part.rows + 1}`;
    const fill = solid(paperInks[curveStyleOf(column.role!).ink]);
    const size = part.rows < MANY_ROWS ? LARGE : SMALL;
    return [
      `<c:ser><c:idx val="${order}"/><c:order val="${order}"/>`,
      `<c:tx><c:strRef><c:f>${escapeMarkup(`'${part.worksheet}'!$${columnLetters(index)}$1`)}</c:f></c:strRef></c:tx>`,
      '<c:spPr><a:ln w="19050"><a:noFill/></a:ln></c:spPr>',
      `<c:marker><c:symbol val="circle"/><c:size val="${size}"/>`,
      `<c:spPr>${fill}<a:ln><a:noFill/></a:ln></c:spPr></c:marker>`,
      `<c:xVal><c:numRef><c:f>${escapeMarkup(range(0))}</c:f></c:numRef></c:xVal>`,
      `<c:yVal><c:numRef><c:f>${escapeMarkup(range(index))}</c:f></c:numRef></c:yVal>`,
      '<c:smooth val="0"/></c:ser>',
    ].join('');
  });
  const [elapsed] = parts.flatMap(({ table }) => table.columns);
  return [
    `<c:chartSpace xmlns:c="${CHART}" xmlns:a="${DRAWING}" xmlns:r="${RELATIONS}"><c:roundedCorners val="0"/><c:chart>`,
    words(title, 1400),
    '<c:autoTitleDeleted val="0"/><c:plotArea><c:layout/>',
    `<c:scatterChart><c:scatterStyle val="lineMarker"/><c:varyColors val="0"/>${series.join('')}`,
    '<c:axId val="1"/><c:axId val="2"/></c:scatterChart>',
    axis({ id: 1, other: 2, at: 'b', title: elapsed ? heading(elapsed) : '' }),
    axis({ id: 2, other: 1, at: 'l', title: '°C' }),
    '</c:plotArea><c:legend><c:legendPos val="b"/><c:overlay val="0"/></c:legend>',
    '<c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/></c:chart></c:chartSpace>',
  ].join('');
}

/** The chart's place on its sheet: to the right of two columns. */
export function drawingPart(): string {
  const corner = (name: string, column: number, row: number) =>
    `<xdr:${name}><xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${name}>`;
  return [
    `<xdr:wsDr xmlns:xdr="${SPREADSHEET_DRAWING}" xmlns:a="${DRAWING}"><xdr:twoCellAnchor>`,
    corner('from', 3, 1),
    corner('to', 14, 28),
    '<xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="chart"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr>',
    '<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm>',
    `<a:graphic><a:graphicData uri="${CHART}"><c:chart xmlns:c="${CHART}" xmlns:r="${RELATIONS}" r:id="rId1"/></a:graphicData></a:graphic>`,
    '</xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>',
  ].join('');
}

function isDrawn({ role, unit }: TableColumn): boolean {
  return role !== undefined && unit === 'Cel';
}

function axis({ id, other, at, title }: { id: number; other: number; at: 'b' | 'l'; title: string }): string {
  const line = `<c:spPr><a:ln w="9525">${solid(paperInks.quiet)}</a:ln></c:spPr>`;
  const grid = `<c:majorGridlines><c:spPr><a:ln w="6350">${solid(paperInks.square)}</a:ln></c:spPr></c:majorGridlines>`;
  return [
    `<c:valAx><c:axId val="${id}"/><c:scaling><c:orientation val="minMax"/></c:scaling><c:delete val="0"/>`,
    `<c:axPos val="${at}"/>${grid}${words(title, 1000)}<c:numFmt formatCode="General" sourceLinked="0"/>`,
    `<c:majorTickMark val="out"/><c:minorTickMark val="none"/><c:tickLblPos val="low"/>${line}`,
    `<c:crossAx val="${other}"/><c:crosses val="autoZero"/><c:crossBetween val="midCat"/></c:valAx>`,
  ].join('');
}

/** @param size in hundredths of a point */
function words(text: string, size: number): string {
  return `<c:title><c:tx><c:rich><a:bodyPr/><a:p><a:r><a:rPr lang="en" sz="${size}" b="0"/><a:t>${escapeMarkup(text)}</a:t></a:r></a:p></c:rich></c:tx><c:overlay val="0"/></c:title>`;
}

function solid(colour: string): string {
  return `<a:solidFill><a:srgbClr val="${colour.slice(1).toUpperCase()}"/></a:solidFill>`;
}

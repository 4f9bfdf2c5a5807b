/** How the cells of a workbook look: number formats, and the bold headings. */
import { escapeMarkup } from '../base/markup.ts';
import type { TableColumn } from './table.ts';
import { MAIN } from './xlsx-names.ts';

const TIMESTAMP = 'yyyy-mm-dd hh:mm:ss';
const INTEGER = '0';

/** By UCUM code, as fine as anybody measures; what has no line here is shown as the program likes. */
const ofUnit: Record<string, string> = {
  s: '0.0##',
  Cel: '0.0#',
  kg: '0.000',
  'MJ/kg': '0.00',
  L: '0.0#',
  m: '0.0##',
  Pa: '0',
  '%': '0.0',
  '1': '0.0##',
};

const formats = [...new Set([TIMESTAMP, INTEGER, ...Object.values(ofUnit)])];
/** Numbers below are those of the formats that every program has. */
const FIRST_FORMAT = 164;

/** Places in the list of cell styles. */
export const PLAIN = 0;
export const HEADING = 1;

export function styleOf({ type, unit }: TableColumn): number {
  const format = type === 'timestamp' ? TIMESTAMP : type === 'integer' ? INTEGER : unit && ofUnit[unit];
  return type === 'text' || !format ? PLAIN : HEADING + 1 + formats.indexOf(format);
}

/** The same with the value at the left, where it stands below texts. */
export function leftStyleOf(column: TableColumn): number {
  const style = styleOf(column);
  return HEADING + 1 + formats.length + (style === PLAIN ? 0 : style - HEADING);
}

/** The part of the workbook to which the numbers of styles refer. */
export function stylesPart(): string {
  const listed = formats.map((code, index) => {
    return `<numFmt numFmtId="${FIRST_FORMAT + index}" formatCode="${escapeMarkup(code)}"/>`;
  });
  const font = '<sz val="11"/><name val="Calibri"/><family val="2"/>';
  const numbers = formats.map((_, index) => FIRST_FORMAT + index);
  const left = 'applyAlignment="1"><alignment horizontal="left"/></xf>';
  const own = [
    ...numbers.map((format) => `${cellStyle(format)} applyNumberFormat="1"/>`),
    `${cellStyle(0)} ${left}`,
    ...numbers.map((format) => `${cellStyle(format)} applyNumberFormat="1" ${left}`),
  ];
  return [
    `<styleSheet xmlns="${MAIN}">`,
    `<numFmts count="${listed.length}">${listed.join('')}</numFmts>`,
    `<fonts count="2"><font>${font}</font><font><b/>${font}</font></fonts>`,
    '<fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>',
    '<fill><patternFill patternType="solid"><fgColor rgb="FFEEEEEE"/></patternFill></fill></fills>',
    '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>',
    '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>',
    `<cellXfs count="${own.length + 2}">${cellStyle(0)}/>`,
    '<xf numFmtId="0" fontId="1" fillId="2" borderId="0" xfId="0" applyFont="1" applyFill="1"/>',
    ...own,
    '</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>',
  ].join('');
}

/** Without its end. */
function cellStyle(format: number): string {
  return `<xf numFmtId="${format}" fontId="0" fillId="0" borderId="0" xfId="0"`;
}

/** What the parts of an Office Open XML package call each other (ECMA-376). */

export const XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

const openXml = 'http://schemas.openxmlformats.org';
export const MAIN = `${openXml}/spreadsheetml/2006/main`;
export const RELATIONS = `${openXml}/officeDocument/2006/relationships`;
export const PACKAGE_RELATIONS = `${openXml}/package/2006/relationships`;
export const CONTENT_TYPES = `${openXml}/package/2006/content-types`;
export const CHART = `${openXml}/drawingml/2006/chart`;
export const DRAWING = `${openXml}/drawingml/2006/main`;
export const SPREADSHEET_DRAWING = `${openXml}/drawingml/2006/spreadsheetDrawing`;

/** 0 is A, 25 is Z, 26 is AA. */
export function columnLetters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnLetters(Math.floor(column / 26) - 1) + last;
}

/** The part that says to which parts the relation numbers of another lead. */
export function relationsPart(relations: readonly { type: string; target: string }[]): string {
  const each = relations.map(
    ({ type, target }, index) => `<Relationship Id="rId${index + 1}" Type="${RELATIONS}/${type}" Target="${target}"/>`,
  );
  return `<Relationships xmlns="${PACKAGE_RELATIONS}">${each.join('')}</Relationships>`;
}

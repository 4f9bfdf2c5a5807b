/** A table in pieces: one per row, or several where a row is too high to stay whole. */
import { paperInks } from '../../shared/plot/inks.ts';
import { leadingPt, type PdfPiece, ruleAt, type Setting, writeLines } from './pdf-lines.ts';
import type { TextLine, TextStyle } from './pdf-pen.ts';
import { asDecoration, lazily, partOf } from './pdf-structure.ts';
import type { Block, Column } from './report.ts';

const headStyle: TextStyle = { weight: 'regular', sizePt: 8.5, color: paperInks.quiet };
const cellStyle: TextStyle = { weight: 'regular', sizePt: 9, color: paperInks.ink };
const gutterPt = 8;
const paddingPt = 2;
/** Lines of a row that are kept on one page. */
const linesTogether = 12;

export function tablePieces({ columns, rows }: Extract<Block, { kind: 'table' }>, setting: Setting): PdfPiece[] {
  const { pen, root, leftPt, widthPt } = setting;
  const { doc } = pen;
  const total = columns.reduce((sum, { share }) => sum + share, 0);
  const widthsPt = columns.map(({ share }) => (share / total) * widthPt);
  const table = lazily(() => partOf(doc, root(), 'Table'));
  const linesOf = (cells: readonly string[], style: TextStyle) =>
    cells.map((cell, at) => pen.linesOf(cell, style, widthsPt[at]! - gutterPt));
  const heightPt = (count: number, style: TextStyle) => count * leadingPt(style) + 2 * paddingPt;
  const place = (at: number) => ({
    leftPt: leftPt + widthsPt.slice(0, at).reduce((sum, each) => sum + each, 0),
    widthPt: widthsPt[at]! - gutterPt,
    align: columns[at]!.align,
  });

  const titles = linesOf(
    columns.map(({ title }: Column) => title),
    headStyle,
  );
  const hasHead = columns.some(({ title }) => title !== '');
  const headPt = hasHead ? heightPt(mostLines(titles), headStyle) : 0;
  const writeTitle = (at: number, topPt: number) =>
    writeLines(pen, titles[at]!, headStyle, place(at), topPt + paddingPt);
  const underline = (topPt: number) =>
    asDecoration(doc, 'Layout', () => ruleAt(pen, leftPt, widthPt, topPt, 0.4, paperInks.line));

  const head: PdfPiece = {
    heightPt: headPt,
    spacePt: 4,
    withNext: true,
    draw(topPt) {
      const row = partOf(doc, table(), 'TR');
      for (const at of columns.keys()) partOf(doc, row, 'TH', { scope: 'Column' }).add(() => writeTitle(at, topPt));
      underline(topPt + headPt);
    },
  };
  const repeatHead = (topPt: number) => {
    asDecoration(doc, 'Pagination', () => {
      for (const at of columns.keys()) writeTitle(at, topPt);
    });
    underline(topPt + headPt);
  };

  return [
    ...(hasHead ? [head] : []),
    ...rows.flatMap((cells, index) => {
      const lines = linesOf(cells, cellStyle);
      const row = lazily(() => partOf(doc, table(), 'TR'));
      const parts = cells.map((_, at) =>
        lazily(() => partOf(doc, row(), at === 0 ? 'TH' : 'TD', at === 0 ? { scope: 'Row' } : {})),
      );
      const count = Math.max(1, mostLines(lines));
      const isWithNext = index === 0 ? rows.length > 1 : index === rows.length - 2;
      return Array.from({ length: Math.ceil(count / linesTogether) }, (_, chunk): PdfPiece => {
        const from = chunk * linesTogether;
        const isLast = from + linesTogether >= count;
        const rowPt = heightPt(Math.min(linesTogether, count - from), cellStyle);
        return {
          heightPt: rowPt,
          spacePt: index === 0 && chunk === 0 && !hasHead ? 4 : 0,
          withNext: isLast && isWithNext,
          headPt,
          ...(hasHead && { drawHead: repeatHead }),
          draw(topPt) {
            for (const [at, part] of parts.entries()) {
              const shown = lines[at]!.slice(from, from + linesTogether);
              part().add(() => writeLines(pen, shown, cellStyle, place(at), topPt + paddingPt));
            }
            if (isLast) underline(topPt + rowPt);
          },
        };
      });
    }),
  ];
}

function mostLines(cells: readonly (readonly TextLine[])[]): number {
  return Math.max(...cells.map(({ length }) => length));
}

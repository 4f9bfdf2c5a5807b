/** The blocks of a report as pieces of its pages. */
import { paperInks } from '../../shared/plot/inks.ts';
import { drawOnPdf } from './drawing-pdf.ts';
import { leadingPt, type PdfPiece, paragraphPieces, ruleAt, type Setting, writeLines } from './pdf-lines.ts';
import type { TextStyle } from './pdf-pen.ts';
import { asDecoration, lazily, partOf } from './pdf-structure.ts';
import { tablePieces } from './pdf-table.ts';
import type { Block, Report } from './report.ts';

const styles = {
  title: { weight: 'bold', sizePt: 20, color: paperInks.ink },
  subtitle: { weight: 'regular', sizePt: 9.5, color: paperInks.quiet },
  heading: { weight: 'bold', sizePt: 12.5, color: paperInks.ink },
  notice: { weight: 'bold', sizePt: 12.5, color: paperInks.ink },
  verdict: { weight: 'regular', sizePt: 13.5, color: paperInks.ink },
  body: { weight: 'regular', sizePt: 9.5, color: paperInks.ink },
  caution: { weight: 'regular', sizePt: 8.7, color: paperInks.ink },
  caption: { weight: 'regular', sizePt: 8.5, color: paperInks.quiet },
} as const satisfies Record<string, TextStyle>;
type StyleName = keyof typeof styles;

const indentPt = 12;
const framePt = 6;
const signaturePt = 34;

/** @param choice which of the drawings of each figure, starting from the tallest */
export function piecesOf(report: Report, choice: number, setting: Setting): PdfPiece[] {
  const pieces = [
    ...written('title', report.title, 'H1', 0, setting),
    ...written('subtitle', report.subtitle, 'P', 3, setting),
    rule(setting),
  ];
  let startsPage = false;
  for (const block of report.blocks) {
    if (block.kind === 'pageBreak') {
      startsPage = true;
      continue;
    }
    const [first, ...rest] = blockPieces(block, choice, setting);
    if (first) pieces.push({ ...first, startsPage }, ...rest);
    startsPage = false;
  }
  return pieces;
}

function blockPieces(block: Exclude<Block, { kind: 'pageBreak' }>, choice: number, setting: Setting): PdfPiece[] {
  switch (block.kind) {
    case 'heading':
      return headingPieces(block.text, setting);
    case 'notice':
      return [noticePiece(block.text, setting)];
    case 'verdict':
      return written('verdict', block.text, 'P', 8, setting);
    case 'text':
      return written('body', block.text, 'P', 4, setting);
    case 'list':
    case 'caution':
      return listPieces(block, setting);
    case 'figure':
      return [figurePiece(block, choice, setting)];
    case 'table':
      return tablePieces(block, setting);
    case 'signature':
      return [signaturePiece(block.labels, setting)];
  }
}

function written(name: StyleName, text: string, type: string, spacePt: number, setting: Setting): PdfPiece[] {
  const part = lazily(() => partOf(setting.pen.doc, setting.root(), type));
  return paragraphPieces(text, styles[name], part, setting, { spacePt });
}

function rule({ pen, leftPt, widthPt }: Setting): PdfPiece {
  return {
    heightPt: 4,
    spacePt: 2,
    draw: (topPt) => asDecoration(pen.doc, 'Layout', () => ruleAt(pen, leftPt, widthPt, topPt + 2, 1.2, paperInks.ink)),
  };
}

/** A heading with a bookmark; never the last piece on a page. */
function headingPieces(text: string, setting: Setting): PdfPiece[] {
  const { doc } = setting.pen;
  const part = lazily(() => partOf(doc, setting.root(), 'H2'));
  const pieces = paragraphPieces(text, styles.heading, part, setting, {
    spacePt: 12,
    before(topPt) {
      // pdfkit counts both from the opposite edge, and its types do not include them.
      doc.outline.addItem(text, { top: topPt, left: doc.page.width } as object);
    },
  });
  return pieces.map((piece) => ({ ...piece, withNext: true }));
}

function noticePiece(text: string, { pen, root, leftPt, widthPt }: Setting): PdfPiece {
  const style = styles.notice;
  const place = { leftPt: leftPt + framePt, widthPt: widthPt - 2 * framePt, align: 'left' } as const;
  const lines = pen.linesOf(text, style, place.widthPt);
  const heightPt = lines.length * leadingPt(style) + 2 * framePt;
  return {
    heightPt,
    spacePt: 6,
    draw(topPt) {
      asDecoration(pen.doc, 'Layout', () => {
        pen.doc.rect(leftPt, topPt, widthPt, heightPt).lineWidth(1.2).stroke(paperInks.ink);
      });
      partOf(pen.doc, root(), 'P').add(() => writeLines(pen, lines, style, place, topPt + framePt));
    },
  };
}

function listPieces({ kind, items }: Extract<Block, { items: unknown }>, setting: Setting): PdfPiece[] {
  const { pen, leftPt } = setting;
  const { doc } = pen;
  const list = lazily(() => partOf(doc, setting.root(), 'L'));
  const isCaution = kind === 'caution';
  return items.flatMap((item) => {
    const body = lazily(() => partOf(doc, partOf(doc, list(), 'LI'), 'LBody'));
    return paragraphPieces(item, isCaution ? styles.caution : styles.body, body, setting, {
      spacePt: isCaution ? 2 : 3,
      indentPt,
      before: (topPt) =>
        asDecoration(doc, 'Layout', () => {
          doc.rect(leftPt + 1, topPt + 4.5, 3, 3).fill(isCaution ? paperInks.ember : paperInks.ink);
        }),
    });
  });
}

function figurePiece(
  { drawings, caption }: Extract<Block, { kind: 'figure' }>,
  choice: number,
  { pen, root, leftPt, widthPt }: Setting,
): PdfPiece {
  const { doc } = pen;
  const drawing = drawings[Math.min(choice, drawings.length - 1)]!;
  const lines = pen.linesOf(caption, styles.caption, widthPt);
  const captionPt = drawing.height + 4;
  return {
    heightPt: captionPt + lines.length * leadingPt(styles.caption),
    spacePt: 8,
    draw(topPt) {
      const bbox = [leftPt, topPt, leftPt + drawing.width, topPt + drawing.height] as const;
      const figure = partOf(doc, root(), 'Figure', { alt: drawing.description, bbox });
      figure.add(() => drawOnPdf(pen, drawing, leftPt, topPt));
      const place = { leftPt, widthPt, align: 'left' } as const;
      partOf(doc, figure, 'Caption').add(() => writeLines(pen, lines, styles.caption, place, topPt + captionPt));
    },
  };
}

/** Next to each other, each above a line to write on. */
function signaturePiece(labels: readonly string[], { pen, root, leftPt, widthPt }: Setting): PdfPiece {
  const eachPt = widthPt / labels.length;
  return {
    heightPt: signaturePt + leadingPt(styles.caption),
    spacePt: 10,
    draw(topPt) {
      for (const [at, label] of labels.entries()) {
        const place = { leftPt: leftPt + at * eachPt, widthPt: eachPt - 16, align: 'left' } as const;
        asDecoration(pen.doc, 'Layout', () =>
          ruleAt(pen, place.leftPt, place.widthPt, topPt + signaturePt, 0.6, paperInks.ink),
        );
        const lines = pen.linesOf(label, styles.caption, place.widthPt);
        partOf(pen.doc, root(), 'P').add(() => writeLines(pen, lines, styles.caption, place, topPt + signaturePt + 3));
      }
    },
  };
}

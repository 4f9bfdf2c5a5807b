/** Lines of text on a page, and the pieces of which pages are made. */
import type { Piece } from './paginate.ts';
import type { PdfPen, TextLine, TextStyle } from './pdf-pen.ts';
import type { Part } from './pdf-structure.ts';

/** Position and document for which pieces are laid out. */
export interface Setting {
  readonly pen: PdfPen;
  /** The structure element of the whole document. */
  readonly root: () => Part;
  readonly leftPt: number;
  readonly widthPt: number;
}

export interface PdfPiece extends Piece {
  draw(topPt: number): void;
  /** The head that is repeated above it where it is the first on its page. */
  drawHead?(topPt: number): void;
}

export interface Place {
  readonly leftPt: number;
  readonly widthPt: number;
  readonly align: 'left' | 'right';
}

/** From one base line to the next. */
export function leadingPt({ sizePt }: TextStyle): number {
  return sizePt * 1.28;
}

export function writeLines(
  pen: PdfPen,
  lines: readonly TextLine[],
  style: TextStyle,
  place: Place,
  topPt: number,
): void {
  for (const [index, line] of lines.entries()) {
    const shiftPt = place.align === 'right' ? place.widthPt - line.widthPt : 0;
    pen.write(line, style, place.leftPt + shiftPt, topPt + index * leadingPt(style) + style.sizePt);
  }
}

export function ruleAt(
  { doc }: PdfPen,
  leftPt: number,
  widthPt: number,
  yPt: number,
  thicknessPt: number,
  color: string,
): void {
  doc
    .moveTo(leftPt, yPt)
    .lineTo(leftPt + widthPt, yPt)
    .lineWidth(thicknessPt)
    .stroke(color);
}

export interface ParagraphOptions {
  readonly spacePt: number;
  readonly indentPt?: number;
  /** Drawn before its first line. */
  readonly before?: (topPt: number) => void;
}

/** A paragraph, one piece per line; neither its first nor its last line is left alone on a page. */
export function paragraphPieces(
  text: string,
  style: TextStyle,
  part: () => Part,
  { pen, leftPt, widthPt }: Omit<Setting, 'root'>,
  { spacePt, indentPt = 0, before }: ParagraphOptions,
): PdfPiece[] {
  const place = { leftPt: leftPt + indentPt, widthPt: widthPt - indentPt, align: 'left' } as const;
  const lines = pen.linesOf(text, style, place.widthPt);
  return lines.map((line, index) => ({
    heightPt: leadingPt(style),
    spacePt: index === 0 ? spacePt : 0,
    withNext: lines.length > 1 && (index === 0 || index === lines.length - 2),
    draw(topPt) {
      if (index === 0) before?.(topPt);
      part().add(() => writeLines(pen, [line], style, place, topPt));
    },
  }));
}

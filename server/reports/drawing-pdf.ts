import { paperInks } from '../../shared/plot/inks.ts';
import type { Drawing } from '../../shared/plot/shapes.ts';
import type { PdfPen } from './pdf-pen.ts';

/** Put a drawing on the page with its top left corner at (x, y), as vectors. */
export function drawOnPdf(pen: PdfPen, drawing: Drawing, xPt: number, yPt: number): void {
  const { doc } = pen;
  for (const shape of drawing.shapes) {
    if (shape.kind === 'text') {
      const [x, y] = shape.at;
      const style = { weight: 'regular', sizePt: shape.size, color: paperInks[shape.ink] } as const;
      const [line] = pen.linesOf(shape.text, style, Number.POSITIVE_INFINITY);
      const shift = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? line!.widthPt / 2 : line!.widthPt;
      pen.write(line!, style, xPt + x - shift, yPt + y);
      continue;
    }
    shape.points.forEach(([x, y], index) => {
      if (index === 0) doc.moveTo(xPt + x, yPt + y);
      else doc.lineTo(xPt + x, yPt + y);
    });
    if (shape.kind === 'area') {
      doc.closePath().fill(paperInks[shape.ink]);
      continue;
    }
    doc.lineJoin('round').lineWidth(shape.style.width);
    // pdfkit accepts lists as well, but its types do not include them.
    if (shape.style.dash.length > 0) doc.dash([...shape.style.dash] as never, {});
    else doc.undash();
    doc.stroke(paperInks[shape.style.ink]);
    doc.undash();
  }
}

import type { Drawing } from './drawing.ts';
import type { PdfPen } from './pdf-pen.ts';

/** Put a drawing on the page with its top left corner at (x, y), as vectors. */
export function drawOnPdf(pen: PdfPen, drawing: Drawing, xPt: number, yPt: number): void {
  const { doc } = pen;
  for (const shape of drawing.shapes) {
    if (shape.kind === 'text') {
      const [x, y] = shape.at;
      const text = pen.use('regular', shape.sizePt, shape.color, shape.text);
      const widthPt = doc.widthOfString(text);
      const shift = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? widthPt / 2 : widthPt;
      // In a drawing text stands on its base line; the writer places the top of the line.
      doc.text(text, xPt + x - shift, yPt + y - shape.sizePt * 0.95, { lineBreak: false });
      continue;
    }
    shape.points.forEach(([x, y], index) => {
      if (index === 0) doc.moveTo(xPt + x, yPt + y);
      else doc.lineTo(xPt + x, yPt + y);
    });
    if (shape.kind === 'area') {
      doc.closePath().fill(shape.fill);
      continue;
    }
    doc.lineJoin('round').lineWidth(shape.stroke.widthPt);
    if (shape.stroke.dash) {
      const [length = 1, space = length] = shape.stroke.dash;
      doc.dash(length, { space });
    } else doc.undash();
    doc.stroke(shape.stroke.color);
    doc.undash();
  }
}

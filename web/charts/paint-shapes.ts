import type { Palette } from '../../shared/plot/inks.ts';
import type { Shape } from '../../shared/plot/shapes.ts';
import { fontFamily } from './chart-plugin.ts';

const alignments = { start: 'left', middle: 'center', end: 'right' } as const;

/** Put shapes on a canvas. */
export function paintShapes(context: CanvasRenderingContext2D, shapes: readonly Shape[], palette: Palette): void {
  context.save();
  context.lineJoin = 'round';
  for (const shape of shapes) {
    if (shape.kind === 'text') {
      context.font = `${shape.size}px ${fontFamily}`;
      context.textAlign = alignments[shape.anchor];
      context.fillStyle = palette[shape.ink];
      context.fillText(shape.text, ...shape.at);
      continue;
    }
    context.beginPath();
    for (const [x, y] of shape.points) context.lineTo(x, y);
    if (shape.kind === 'area') {
      context.fillStyle = palette[shape.ink];
      context.fill();
      continue;
    }
    context.strokeStyle = palette[shape.style.ink];
    context.lineWidth = shape.style.width;
    context.setLineDash([...shape.style.dash]);
    context.stroke();
  }
  context.restore();
}

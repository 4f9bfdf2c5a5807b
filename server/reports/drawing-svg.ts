import { escapeMarkup } from '../base/markup.ts';
import type { Drawing, Shape } from './drawing.ts';

/** The drawing as one SVG element that carries its own description and asks nothing from outside. */
export function drawingToSvg(drawing: Drawing): string {
  const { widthPt, heightPt, description, shapes } = drawing;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${short(widthPt)} ${short(heightPt)}" ` +
    `font-family="'Atkinson Hyperlegible Next', sans-serif" role="img">` +
    `<title>${escapeMarkup(description)}</title>${shapes.map(shapeToSvg).join('')}</svg>`
  );
}

function shapeToSvg(shape: Shape): string {
  if (shape.kind === 'text') {
    const [x, y] = shape.at;
    return `<text x="${short(x)}" y="${short(y)}" font-size="${shape.sizePt}" fill="${shape.color}" text-anchor="${shape.anchor}">${escapeMarkup(shape.text)}</text>`;
  }
  const path = shape.points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');
  if (shape.kind === 'area') return `<path d="${path}Z" fill="${shape.fill}"/>`;
  const { color, widthPt, dash } = shape.stroke;
  const dashes = dash ? ` stroke-dasharray="${dash.join(' ')}"` : '';
  return `<path d="${path}" fill="none" stroke="${color}" stroke-width="${widthPt}" stroke-linejoin="round"${dashes}/>`;
}

/** Hundredths of a point are finer than any printer. */
function short(valuePt: number): string {
  return String(Math.round(valuePt * 100) / 100);
}

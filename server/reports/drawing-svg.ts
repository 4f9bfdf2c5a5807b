import { svgPath } from '../../shared/plot/curve-paths.ts';
import { paperInks } from '../../shared/plot/inks.ts';
import type { Drawing, Shape } from '../../shared/plot/shapes.ts';
import { escapeMarkup } from '../base/markup.ts';

/** The drawing as one SVG element that contains its own description and loads nothing. */
export function drawingToSvg(drawing: Drawing): string {
  const { width, height, description, shapes } = drawing;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${short(width)} ${short(height)}" ` +
    `font-family="'Atkinson Hyperlegible Next', sans-serif" role="img">` +
    `<title>${escapeMarkup(description)}</title>${shapes.map(shapeToSvg).join('')}</svg>`
  );
}

function shapeToSvg(shape: Shape): string {
  if (shape.kind === 'text') {
    const [x, y] = shape.at;
    return `<text x="${short(x)}" y="${short(y)}" font-size="${shape.size}" fill="${paperInks[shape.ink]}" text-anchor="${shape.anchor}">${escapeMarkup(shape.text)}</text>`;
  }
  const path = svgPath(shape.points);
  if (shape.kind === 'area') return `<path d="${path}Z" fill="${paperInks[shape.ink]}"/>`;
  const { ink, width, dash } = shape.style;
  const dashes = dash.length > 0 ? ` stroke-dasharray="${dash.join(' ')}"` : '';
  return `<path d="${path}" fill="none" stroke="${paperInks[ink]}" stroke-width="${width}" stroke-linejoin="round"${dashes}/>`;
}

/** Rounded to hundredths of a point, finer than any printer. */
function short(valuePt: number): string {
  return String(Math.round(valuePt * 100) / 100);
}

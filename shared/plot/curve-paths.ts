/** Curves as paths that leave their gaps open. Pure. */
import type { Scale } from './scale.ts';
import type { Point } from './shapes.ts';

/** The stretches of a curve between its gaps, in the places of its axes: nothing is drawn where nothing was read. */
export function stretchesOf(
  x: readonly number[],
  y: readonly (number | null | undefined)[],
  across: Scale,
  up: Scale,
): Point[][] {
  const stretches: Point[][] = [];
  let open: Point[] = [];
  for (const [index, at] of x.entries()) {
    const value = y[index];
    if (value !== null && value !== undefined) {
      if (open.length === 0) stretches.push(open);
      open.push([across(at), up(value)]);
    } else open = [];
  }
  return stretches;
}

/** Points as the path of an SVG; hundredths are finer than any screen or printer. */
export function svgPath(points: readonly Point[]): string {
  const short = (value: number) => Math.round(value * 100) / 100;
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');
}

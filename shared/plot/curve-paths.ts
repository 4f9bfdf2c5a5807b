/** Converts curves to paths with their gaps left open. Pure. */
import type { Scale } from './scale.ts';
import type { Point } from './shapes.ts';

/**
 * Returns the stretches of a curve between its gaps, in coordinates of the axes: nothing is drawn where there is no
 * reading.
 */
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

/** Returns points as an SVG path, rounded to hundredths, which is finer than any screen or printer. */
export function svgPath(points: readonly Point[]): string {
  const short = (value: number) => Math.round(value * 100) / 100;
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');
}

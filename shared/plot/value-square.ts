import type { Point, Shape } from './shapes.ts';

/** Returns the square that stands for a value on its bar, from its middle. */
export function valueSquare([x, y]: Point, half: number): Shape {
  const points: Point[] = [
    [x - half, y - half],
    [x + half, y - half],
    [x + half, y + half],
    [x - half, y + half],
  ];
  return { kind: 'area', points, ink: 'water' };
}

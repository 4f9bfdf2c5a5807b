import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pngOf } from './png.ts';

/**
 * Icons required by home screens. Where the system crops the icon to a shape, the background fills the square and the
 * drawing is smaller.
 */
const PICTURES = [
  { name: 'icon-192.png', size: 192, fills: false, scale: 1 },
  { name: 'icon-512.png', size: 512, fills: false, scale: 1 },
  // A circle of 80 % of the width is safe (W3C Web Application Manifest, "Icon masks and safe zone").
  { name: 'icon-maskable-512.png', size: 512, fills: true, scale: 0.76 },
  { name: 'icon-180.png', size: 180, fills: true, scale: 0.92 },
] as const;

const STEPS_OF_CURVE = 24;

type Point = readonly [number, number];
type Ink = readonly [number, number, number];

interface Stroke {
  ink: Ink;
  width: number;
  points: Point[];
}

interface Drawing {
  /** As a share of the side of the square. */
  width: number;
  background: Ink;
  cornerRadius: number;
  strokes: Stroke[];
}

/** Draws the icons for home screens from `icon.svg`, in the same folder. */
export function drawIcons(folder: string): void {
  const drawing = readDrawing(readFileSync(join(folder, 'icon.svg'), 'utf8'));
  for (const { name, size, fills, scale } of PICTURES)
    writeFileSync(join(folder, name), pngOf(pixelsOf(drawing, size, fills, scale), size));
}

/**
 * Parses the part of SVG that the icon uses: one background square, and lines and cubic curves in absolute coordinates,
 * with round ends.
 */
function readDrawing(svg: string): Drawing {
  const { width, rx, fill: colour } = attributes(/<rect [^>]*>/.exec(svg)![0]);
  return {
    width: Number(width),
    background: inkOf(colour!),
    cornerRadius: Number(rx),
    strokes: [...svg.matchAll(/<path [^>]*>/g)].map(([path]) => {
      const { d, stroke, 'stroke-width': strokeWidth } = attributes(path);
      return { ink: inkOf(stroke!), width: Number(strokeWidth), points: pointsOf(d!) };
    }),
  };
}

function attributes(tag: string): Record<string, string> {
  return Object.fromEntries([...tag.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, name, value]) => [name, value]));
}

function inkOf(hex: string): Ink {
  const value = Number.parseInt(hex.slice(1), 16);
  return [value >> 16, (value >> 8) & 255, value & 255];
}

function pointsOf(path: string): Point[] {
  const points: Point[] = [];
  for (const [, command, rest] of path.matchAll(/([MLC])([^MLC]*)/g)) {
    const numbers = rest!
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    if (command !== 'C') points.push([numbers[0]!, numbers[1]!]);
    else points.push(...curve(points.at(-1)!, numbers));
  }
  return points;
}

function curve([x0, y0]: Point, [x1, y1, x2, y2, x3, y3]: number[]): Point[] {
  const at = (t: number, a: number, b: number, c: number, d: number) =>
    (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t ** 2 * c + t ** 3 * d;
  return Array.from({ length: STEPS_OF_CURVE }, (_, step) => {
    const t = (step + 1) / STEPS_OF_CURVE;
    return [at(t, x0, x1!, x2!, x3!), at(t, y0, y1!, y2!, y3!)];
  });
}

/**
 * Every pixel takes a share of a colour by the distance of its centre to the edge of the shape, softened over one
 * pixel.
 */
function pixelsOf({ width, background, cornerRadius, strokes }: Drawing, size: number, fills: boolean, scale: number) {
  const rgba = new Uint8Array(size * size * 4);
  const pixel = width / size;
  const half = width / 2;
  const cover = (outsideBy: number) => Math.min(1, Math.max(0, 0.5 - outsideBy / pixel));
  for (let index = 0; index < size * size; index++) {
    const x = ((index % size) + 0.5) * pixel;
    const y = (Math.floor(index / size) + 0.5) * pixel;
    const drawn: Point = [half + (x - half) / scale, half + (y - half) / scale];
    let ink: Ink = background;
    for (const stroke of strokes) {
      if (!isNear(drawn, stroke)) continue;
      const share = cover((distance(drawn, stroke.points) - stroke.width / 2) * scale);
      if (share > 0) ink = mixed(ink, stroke.ink, share);
    }
    const opaque = fills ? 1 : cover(outsideRounded(x - half, y - half, half, cornerRadius));
    rgba.set([...ink.map(Math.round), Math.round(opaque * 255)], index * 4);
  }
  return rgba;
}

function mixed(under: Ink, over: Ink, share: number): Ink {
  const mix = (channel: 0 | 1 | 2) => under[channel] + (over[channel] - under[channel]) * share;
  return [mix(0), mix(1), mix(2)];
}

/** Distance of a point from the outside of a square with round corners around the origin; negative inside. */
function outsideRounded(x: number, y: number, half: number, radius: number): number {
  const [dx, dy] = [Math.abs(x) - half + radius, Math.abs(y) - half + radius];
  return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0) - radius;
}

/** Whether a point is in the bounding box of a stroke, none of which turns back: most are not, and need no distance. */
function isNear([x, y]: Point, { points, width }: Stroke): boolean {
  const [[left, top], [right, bottom]] = [points[0]!, points.at(-1)!];
  const isWithin = (at: number, a: number, b: number) => at > Math.min(a, b) - width && at < Math.max(a, b) + width;
  return isWithin(x, left, right) && isWithin(y, top, bottom);
}

function distance([x, y]: Point, points: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let index = 1; index < points.length; index++) {
    const [[ax, ay], [bx, by]] = [points[index - 1]!, points[index]!];
    const [dx, dy] = [bx - ax, by - ay];
    const along = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    least = Math.min(least, (x - ax - along * dx) ** 2 + (y - ay - along * dy) ** 2);
  }
  return Math.sqrt(least);
}

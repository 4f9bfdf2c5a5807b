/**
 * A sketch of a stove from its dimensions, on one scale. Pure. How the parts are joined is not entered: they are
 * stacked in the order of their names, under the pot.
 */
import { partsOf } from '../../../shared/comparison/design-figures.ts';
import type { CurveStyle } from '../../../shared/plot/curve-styles.ts';
import type { Point, Shape } from '../../../shared/plot/shapes.ts';

export interface SketchedStove {
  readonly dimensionsM: Readonly<Record<string, number>>;
  /** Of the pot on it, where one is known. */
  readonly potDiameterM?: number | undefined;
}

interface Part {
  readonly name: string;
  readonly acrossM: number;
  readonly upM: number;
}

const wall: CurveStyle = { ink: 'ink', dash: [], width: 1.75 };
const potWall: CurveStyle = { ink: 'water', dash: [], width: 1.75 };
const openEnd: CurveStyle = { ink: 'water', dash: [3, 3], width: 1.25 };
const gapWall: CurveStyle = { ink: 'air', dash: [1.5, 2.5], width: 1.75 };
const rule: CurveStyle = { ink: 'quiet', dash: [], width: 1 };

/** A pot of unknown height is drawn with this height as a share of its width, open at the top. */
const potHeightShare = 0.5;
const labelPx = 12;
const marginPx = 6;
const barRoomPx = 24;
const barM = 0.1;

/** Parts with both a width and a height; the others cannot be drawn. */
function drawnParts({ dimensionsM }: SketchedStove): Part[] {
  const { acrossM, upM } = partsOf(dimensionsM);
  return [...acrossM].flatMap(([name, across]) => {
    const up = upM.get(name);
    return up === undefined ? [] : [{ name, acrossM: across, upM: up }];
  });
}

function gapOf({ dimensionsM, potDiameterM }: SketchedStove): number {
  return potDiameterM === undefined ? 0 : (partsOf(dimensionsM).gapM ?? 0);
}

/** Width and height of what is drawn, in metres; undefined where there is nothing to draw. */
export function sketchExtentM(stove: SketchedStove): { acrossM: number; upM: number } | undefined {
  const parts = drawnParts(stove);
  if (parts.length === 0) return undefined;
  const { potDiameterM = 0 } = stove;
  return {
    acrossM: Math.max(...parts.map(({ acrossM }) => acrossM), potDiameterM + 2 * gapOf(stove)),
    upM: parts.reduce((sum, { upM }) => sum + upM, potDiameterM * potHeightShare),
  };
}

/**
 * @param pxPerM the same for stoves next to each other
 * @param words names for parts without one among the dimensions
 */
export function sketchOf(
  stove: SketchedStove,
  pxPerM: number,
  words: { readonly pot: string; readonly bar: string },
): { width: number; height: number; shapes: Shape[] } | undefined {
  const extent = sketchExtentM(stove);
  if (!extent) return undefined;
  const drawing = extent.acrossM * pxPerM;
  const middle = marginPx + drawing / 2;
  const shapes: Shape[] = [];
  const line = (style: CurveStyle, ...points: Point[]) => shapes.push({ kind: 'line', points, style });
  const name = (text: string, y: number) =>
    shapes.push({
      kind: 'text',
      at: [marginPx * 2 + drawing, y],
      text,
      size: labelPx,
      ink: 'quiet',
      anchor: 'start',
    });
  const ground = marginPx + extent.upM * pxPerM;
  let foot = ground;
  for (const part of drawnParts(stove)) {
    const [half, top] = [(part.acrossM * pxPerM) / 2, foot - part.upM * pxPerM];
    line(
      wall,
      [middle - half, foot],
      [middle - half, top],
      [middle + half, top],
      [middle + half, foot],
      [middle - half, foot],
    );
    name(part.name, (foot + top) / 2 + 4);
    foot = top;
  }
  if (stove.potDiameterM !== undefined) {
    const [half, top] = [(stove.potDiameterM * pxPerM) / 2, foot - stove.potDiameterM * potHeightShare * pxPerM];
    line(potWall, [middle - half, top], [middle - half, foot], [middle + half, foot], [middle + half, top]);
    line(openEnd, [middle - half, top], [middle + half, top]);
    name(words.pot, (foot + top) / 2 + 4);
    const gap = gapOf(stove) * pxPerM;
    if (gap > 0)
      for (const side of [-1, 1]) {
        const at = middle + side * (half + gap);
        line(gapWall, [at, top], [at, foot]);
      }
  }
  const barFrom = marginPx;
  const barY = ground + 10;
  line(
    rule,
    [barFrom, barY - 3],
    [barFrom, barY],
    [barFrom + barM * pxPerM, barY],
    [barFrom + barM * pxPerM, barY - 3],
  );
  shapes.push({
    kind: 'text',
    at: [barFrom + barM * pxPerM + 6, barY + 3],
    text: words.bar,
    size: labelPx,
    ink: 'quiet',
    anchor: 'start',
  });
  const longest = Math.max(...[words.pot, ...drawnParts(stove).map((part) => part.name)].map((text) => text.length));
  return { width: marginPx * 3 + drawing + longest * labelPx * 0.56, height: ground + barRoomPx, shapes };
}

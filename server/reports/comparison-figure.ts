/** Two drawings of a comparison: the water of all burns drawn together, and the differences with their intervals. */

import { sideStyles } from '../../shared/plot/curve-styles.ts';
import { linearScale } from '../../shared/plot/scale.ts';
import type { Drawing, Point, Shape } from '../../shared/plot/shapes.ts';
import { valueSquare } from '../../shared/plot/value-square.ts';
import { highEnd, labelPt, PlotArea, type TimeCurve } from './plot-area.ts';

export interface OverlaidBurn {
  readonly side: 'a' | 'b';
  readonly litS: number;
  readonly water: TimeCurve;
}

export function drawOverlay(
  burns: readonly OverlaidBurn[],
  words: {
    readonly description: string;
    readonly waterC: string;
    readonly minutes: string;
    readonly names: Readonly<Record<'a' | 'b', string>>;
    readonly number: (value: number, decimals: number) => string;
  },
  widthPt: number,
  heightPt: number,
): Drawing {
  const endS = Math.max(0, ...burns.map(({ water, litS }) => (water.t.at(-1) ?? litS) - litS));
  const area = new PlotArea(widthPt, endS, words.number);
  const curves = burns.map(({ water }) => water);
  const key = (['a', 'b'] as const).map((side) => ({ name: words.names[side], style: sideStyles[side] }));
  const topPt = area.caption(0, words.waterC, 'quiet', key);
  const band = { topPt, heightPt, low: 0, high: highEnd(curves, 5, 105) };
  area.band(band, 5, 20);
  for (const { side, litS, water } of burns)
    area.curve(water, litS, band, { ...sideStyles[side], width: overlaidWidthPt });
  const bottomPt = area.timeAxis(band.topPt + band.heightPt, words.minutes);
  return { width: widthPt, height: bottomPt + 2, description: words.description, shapes: area.shapes };
}

/** Overlaid curves are drawn thinner than a single one. */
const overlaidWidthPt = 1.1;
/** Names are printed next to their bars, or above them where there is no room. */
const layouts = {
  left: { rowPt: 16, nameShare: 0.34, nameAtPt: 11, barAtPt: 11 },
  top: { rowPt: 27, nameShare: 0.04, nameAtPt: 11, barAtPt: 23 },
};
const leastForNamesPt = 400;
const squareHalfPt = 2;

/**
 * One row per difference: a dot for the observed value, a bar for its interval where there is one, and a line at no
 * difference.
 */
export function drawIntervals(
  differences: readonly { readonly relative: number; readonly interval?: readonly [number, number] | undefined }[],
  words: {
    readonly names: readonly string[];
    readonly description: string;
    readonly percent: (relative: number) => string;
  },
  widthPt: number,
): Drawing {
  const shown = differences.flatMap(({ relative, interval = [] }) => [relative, ...interval]);
  const farthest = Math.max(0.05, ...shown.map(Math.abs));
  // An interval that fills half the axis or more is as clearly inconclusive when it is cut off.
  const limit = Math.min(Math.ceil(farthest * 20) / 20, 0.6);
  const layout = widthPt < leastForNamesPt ? 'top' : 'left';
  const { rowPt, nameShare, nameAtPt, barAtPt } = layouts[layout];
  const left = widthPt * nameShare;
  const across = linearScale([-limit, limit], [left, widthPt - 6]);
  const x = (relative: number) => across(Math.max(-limit, Math.min(limit, relative)));
  const floorPt = differences.length * rowPt + 6;
  const zeroLine = (fromPt: number, toPt: number): Shape => ({
    kind: 'line',
    points: [
      [x(0), fromPt],
      [x(0), toPt],
    ],
    style: { ink: 'ink', dash: [], width: 0.7 },
  });
  const shapes: Shape[] = [
    // A name above its bar may be as long as the chart is wide: the line leaves it free.
    ...(layout === 'left'
      ? [zeroLine(0, floorPt)]
      : differences.map((_, row) =>
          zeroLine(row * rowPt + nameAtPt + 3, Math.min(floorPt, (row + 1) * rowPt + nameAtPt - labelPt - 1)),
        )),
    ...[-limit, -limit / 2, 0, limit / 2, limit].map((end): Shape => {
      const anchor = end === limit ? 'end' : end === -limit ? 'start' : 'middle';
      const at: Point = [x(end), floorPt + 10];
      return { kind: 'text', at, text: words.percent(end), size: labelPt, ink: 'quiet', anchor };
    }),
  ];
  differences.forEach(({ relative, interval }, row) => {
    const yPt = row * rowPt + barAtPt;
    const at = x(relative);
    shapes.push(
      {
        kind: 'text',
        at: [0, row * rowPt + nameAtPt],
        text: words.names[row] ?? '',
        size: labelPt + 0.5,
        ink: 'ink',
        anchor: 'start',
      },
      ...(interval ? [barAt(x(interval[0]), x(interval[1]), yPt - 2.5)] : []),
      valueSquare([at, yPt - 2.5], squareHalfPt),
    );
  });
  return { width: widthPt, height: floorPt + 13, description: words.description, shapes };
}

function barAt(fromPt: number, toPt: number, yPt: number): Shape {
  const from: Point = [fromPt, yPt];
  return { kind: 'line', points: [from, [toPt, yPt]], style: { ink: 'line', dash: [], width: 4 } };
}

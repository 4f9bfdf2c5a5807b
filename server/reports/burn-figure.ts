/** The time chart of one burn as a drawing: the water above, other temperatures and the heating rate in bands of their own, marks below, one time axis. */

import { MARK_KINDS } from '../../shared/contract/mark-kinds.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Series } from '../../shared/contract/series.ts';
import { type Drawing, ink, type Point, type Stroke } from './drawing.ts';
import { highEnd, leftPt, PlotArea } from './plot-area.ts';

export interface BurnFigureWords {
  readonly description: string;
  readonly waterC: string;
  readonly otherC: string;
  readonly rateKPerMin: string;
  readonly minutes: string;
  readonly woodKg: string;
  /** e.g. 1.2 → "1,2" */
  readonly number: (value: number, decimals: number) => string;
}

/** Line styles in the order in which curves of a band are drawn; told apart in grey as well. */
const styles: readonly Stroke[] = [
  { color: ink.flue, widthPt: 1, dash: [4, 2] },
  { color: ink.body, widthPt: 1, dash: [1.2, 1.8] },
  { color: ink.quiet, widthPt: 1 },
  { color: ink.water, widthPt: 1, dash: [6, 2, 1, 2] },
];

/**
 * Draw the time chart of a burn.
 * @param series curves as served to the page; `null` values are gaps and are left open
 * @param widthPt whole width of the drawing
 */
export function drawBurn(series: Series, marks: readonly Mark[], words: BurnFigureWords, widthPt: number): Drawing {
  const litS = series.litS ?? 0;
  const water = series.curves.filter((curve) => curve.id === 'water');
  const rate = series.curves.filter((curve) => curve.id === 'waterRate');
  const others = series.curves.filter(
    ({ id, role, unit }) => unit === 'Cel' && id !== 'water' && !['water', 'coldJunction', 'ambient'].includes(role),
  );
  const endS = Math.max(0, ...series.curves.map((curve) => (curve.t.at(-1) ?? litS) - litS));
  const area = new PlotArea(widthPt, endS, words.number);

  const waterBand = { topPt: 14, heightPt: 180, low: 0, high: highEnd(water, 5, 105) };
  area.band(waterBand, 5, 20, words.waterC, ink.water);
  for (const curve of water) area.curve(curve, litS, waterBand, { color: ink.water, widthPt: 1.6 });

  let bottomPt = waterBand.topPt + waterBand.heightPt;
  if (others.length > 0) {
    const band = { topPt: bottomPt + 17, heightPt: 66, low: 0, high: highEnd(others, 100, 100) };
    area.band(band, 100, band.high > 400 ? 200 : 100, words.otherC, ink.quiet);
    others.forEach((curve, index) => {
      const style = styles[index % styles.length] as Stroke;
      area.curve(curve, litS, band, style);
      const yPt = band.topPt + 8 + index * 9;
      const sample: Point = [widthPt - 30, yPt - 2.5];
      area.line([sample, [widthPt - 8, yPt - 2.5]], style);
      area.text([widthPt - 34, yPt], curve.name, style.color, 'end');
    });
    bottomPt = band.topPt + band.heightPt;
  }
  if (rate.length > 0) {
    const band = { topPt: bottomPt + 17, heightPt: 40, low: -0.5, high: highEnd(rate, 0.5, 1.5) };
    area.band(band, 0.5, 1, words.rateKPerMin, ink.quiet);
    for (const curve of rate) area.curve(curve, litS, band, { color: ink.text, widthPt: 0.9 });
    bottomPt = band.topPt + band.heightPt;
  }
  bottomPt = area.timeAxis(bottomPt, words.minutes);
  bottomPt = drawMarks(area, marks, litS, bottomPt, widthPt, words);
  return { widthPt, heightPt: bottomPt + 4, description: words.description, shapes: area.shapes };
}

/** Bars as tall as the wood was heavy, triangles for a poke, ticks for the rest. */
function drawMarks(
  area: PlotArea,
  marks: readonly Mark[],
  litS: number,
  topPt: number,
  widthPt: number,
  words: BurnFigureWords,
): number {
  const trackHeightPt = 30;
  const floorPt = topPt + trackHeightPt;
  const heaviestKg = Math.max(0.5, ...marks.map((mark) => (mark.kind === 'fed' ? (mark.massKg ?? 0) : 0)));
  const floor: Point = [leftPt, floorPt];
  area.line([floor, [widthPt - 4, floorPt]], { color: ink.text, widthPt: 0.7 });
  area.text([widthPt - 4, floorPt + 10], words.woodKg, ink.quiet, 'end');
  let labelledToPt = leftPt;
  for (const mark of [...marks].sort((a, b) => a.elapsedUs - b.elapsedUs)) {
    const at = Math.max(leftPt, area.x(mark.elapsedUs / 1e6 - litS));
    const foot: Point = [at, floorPt];
    if (mark.kind === 'fed') {
      const heightPt = mark.massKg === undefined ? 6 : Math.max(3, (mark.massKg / heaviestKg) * (trackHeightPt - 6));
      const corners: Point[] = [foot, [at, floorPt - heightPt], [at + 4, floorPt - heightPt], [at + 4, floorPt]];
      if (mark.massKg === undefined) area.line(corners, { color: ink.wood, widthPt: 0.8 });
      else area.shapes.push({ kind: 'area', points: corners, fill: ink.wood });
      if (mark.massKg !== undefined && at >= labelledToPt && at < widthPt - 60) {
        area.text([at, floorPt + 10], words.number(mark.massKg, 2), ink.text, 'start');
        labelledToPt = at + 24;
      }
    } else if (MARK_KINDS[mark.kind].sign === 'triangle') {
      const triangle: Point[] = [
        [at - 3, floorPt],
        [at, floorPt - 6],
        [at + 3, floorPt],
        [at - 3, floorPt],
      ];
      area.line(triangle, { color: ink.text, widthPt: 0.7 });
    } else {
      area.line([foot, [at, floorPt - 9]], { color: ink.quiet, widthPt: 0.7, dash: [1.5, 1.5] });
    }
  }
  return floorPt + 14;
}

/** The time chart of one burn as a drawing: the water above, other temperatures and the heating rate in bands of their own, marks below, one time axis. */

import { MARK_KINDS } from '../../shared/contract/mark-kinds.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Series } from '../../shared/contract/series.ts';
import { curveStyleOf, curveStyles } from '../../shared/plot/curve-styles.ts';
import { spread, textWidth } from '../../shared/plot/label-places.ts';
import { markShapes, markStep } from '../../shared/plot/mark-shapes.ts';
import type { Drawing } from '../../shared/plot/shapes.ts';
import { type Band, highEnd, labelPt, leftPt, PlotArea } from './plot-area.ts';

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

/** Temperatures that are not drawn in the band of hot ones. */
const elsewhere = ['water', 'contentCore', 'coldJunction', 'ambient'];
const trackHeightPt = 30;

/**
 * Draw the time chart of a burn.
 * @param series curves as served to the page; `null` values are gaps and are left open
 * @param width total width of the drawing
 * @param scale factor for the heights of its bands
 */
export function drawBurn(
  series: Series,
  marks: readonly Mark[],
  words: BurnFigureWords,
  width: number,
  scale = 1,
): Drawing {
  const litS = series.litS ?? 0;
  const water = series.curves.filter(({ id, role }) => id === 'water' || role === 'contentCore');
  const rate = series.curves.filter((curve) => curve.id === 'waterRate');
  const others = series.curves.filter(({ role, unit }) => unit === 'Cel' && !elsewhere.includes(role));
  const endS = Math.max(0, ...series.curves.map((curve) => (curve.t.at(-1) ?? litS) - litS));
  const area = new PlotArea(width, endS, words.number);
  const nameOf = ({ id, name, role }: Series['curves'][number]) =>
    id === 'water' ? [] : [{ name, style: curveStyleOf(role) }];
  const draw = (curves: Series['curves'], band: Band, fineStep: number, labelStep: number) => {
    area.band(band, fineStep, labelStep);
    for (const curve of curves)
      area.curve(curve, litS, band, curve.id === 'waterRate' ? curveStyles.rate : curveStyleOf(curve.role));
    return band.topPt + band.heightPt;
  };

  const waterTopPt = area.caption(0, words.waterC, 'water', water.flatMap(nameOf));
  let bottomPt = draw(water, { topPt: waterTopPt, heightPt: 180 * scale, low: 0, high: highEnd(water, 5, 105) }, 5, 20);
  if (others.length > 0) {
    const topPt = area.caption(bottomPt + 5, words.otherC, 'quiet', others.flatMap(nameOf));
    const high = highEnd(others, 100, 100);
    bottomPt = draw(others, { topPt, heightPt: 66 * scale, low: 0, high }, 100, high > 400 ? 200 : 100);
  }
  if (rate.length > 0) {
    const topPt = area.caption(bottomPt + 5, words.rateKPerMin, 'quiet');
    bottomPt = draw(rate, { topPt, heightPt: 40 * scale, low: -0.5, high: highEnd(rate, 0.5, 1.5) }, 0.5, 1);
  }
  bottomPt = area.timeAxis(bottomPt, words.minutes);
  bottomPt = drawMarks(area, marks, litS, bottomPt, width, words);
  return { width, height: bottomPt + 4, description: words.description, shapes: area.shapes };
}

/** Signs on a track, those of one minute next to each other; masses below the bars as far as there is room. */
function drawMarks(
  area: PlotArea,
  all: readonly Mark[],
  litS: number,
  topPt: number,
  width: number,
  words: BurnFigureWords,
): number {
  const floorPt = topPt + trackHeightPt;
  const rightPt = width - 4;
  const marks = all.filter(({ kind }) => kind !== 'reading').sort((a, b) => a.elapsedUs - b.elapsedUs);
  const heaviestKg = Math.max(0.5, ...marks.map((mark) => (mark.kind === 'fed' ? (mark.massKg ?? 0) : 0)));
  area.line(
    [
      [leftPt, floorPt],
      [rightPt, floorPt],
    ],
    { ink: 'ink', dash: [], width: 0.7 },
  );
  area.text([rightPt, floorPt + 10], words.woodKg, 'quiet', 'end');
  const places = spread(
    marks.map(({ elapsedUs }) => area.x(elapsedUs / 1e6 - litS)),
    leftPt + markStep / 2,
    rightPt - markStep / 2,
    markStep,
  );
  let freePt = leftPt;
  const lastPt = rightPt - textWidth(words.woodKg, labelPt) - 8;
  for (const [index, mark] of marks.entries()) {
    const at = places[index]!;
    const massKg = 'massKg' in mark ? mark.massKg : undefined;
    const bar = massKg === undefined ? undefined : (massKg / heaviestKg) * (trackHeightPt - 6);
    area.shapes.push(
      ...markShapes({ sign: MARK_KINDS[mark.kind].sign, isLidOn: mark.kind === 'lidOn', bar }, [at, floorPt]),
    );
    if (mark.kind !== 'fed' || massKg === undefined) continue;
    const text = words.number(massKg, 2);
    const fromPt = at - textWidth(text, labelPt) / 2;
    if (fromPt < freePt || fromPt + textWidth(text, labelPt) > lastPt) continue;
    area.text([at, floorPt + 10], text, 'ink', 'middle');
    freePt = fromPt + textWidth(text, labelPt) + 4;
  }
  return floorPt + 14;
}

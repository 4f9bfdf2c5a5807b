/** The strip of one burn as a drawing: the water above, other temperatures and the heating rate in bands of their own, marks below, one time axis. */
import type { Series } from '../../shared/contract/api.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { type Drawing, ink, type Point, type Shape, type Stroke } from './drawing.ts';

type Curve = Series['curves'][number];

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

interface Band {
  readonly topPt: number;
  readonly heightPt: number;
  readonly low: number;
  readonly high: number;
}

const leftPt = 34;
const labelPt = 7.5;

/** Line styles in the order in which curves of a band are drawn; told apart in grey as well. */
const styles: readonly Stroke[] = [
  { color: ink.flue, widthPt: 1, dash: [4, 2] },
  { color: ink.body, widthPt: 1, dash: [1.2, 1.8] },
  { color: ink.quiet, widthPt: 1 },
  { color: ink.water, widthPt: 1, dash: [6, 2, 1, 2] },
];

/**
 * Draw the strip of a burn.
 * @param series curves as served to the page; `null` values are gaps and are left open
 * @param widthPt whole width of the drawing
 */
export function drawBurn(series: Series, marks: readonly Mark[], words: BurnFigureWords, widthPt: number): Drawing {
  const litS = series.litS ?? 0;
  const water = series.curves.filter((curve) => curve.id === 'water');
  const rate = series.curves.filter((curve) => curve.id === 'waterRate');
  const others = series.curves.filter(
    (curve) =>
      curve.unit === 'Cel' && !['water', 'coldJunction', 'ambient'].includes(curve.role) && curve.id !== 'water',
  );
  const endS = Math.max(60, ...series.curves.map((curve) => (curve.t.at(-1) ?? litS) - litS));
  const x = (elapsedS: number) => leftPt + ((elapsedS - litS) / endS) * (widthPt - leftPt - 4);

  const shapes: Shape[] = [];
  const waterBand = { topPt: 6, heightPt: 190, low: 0, high: Math.max(105, ceilTo(largest(water), 5)) };
  drawPaper(shapes, waterBand, 5, 20, endS, x, litS, words);
  shapes.push(caption(words.waterC, waterBand, ink.water));
  for (const curve of water) drawCurve(shapes, curve, waterBand, x, { color: ink.water, widthPt: 1.6 });

  let bottomPt = waterBand.topPt + waterBand.heightPt;
  if (others.length > 0) {
    const band = { topPt: bottomPt + 8, heightPt: 70, low: 0, high: Math.max(100, ceilTo(largest(others), 100)) };
    drawPaper(shapes, band, 100, band.high > 400 ? 200 : 100, endS, x, litS, words);
    shapes.push(caption(words.otherC, band, ink.quiet));
    others.forEach((curve, place) => {
      const style = styles[place % styles.length] as Stroke;
      drawCurve(shapes, curve, band, x, style);
      shapes.push(...legend(curve.name, style, band, place, widthPt));
    });
    bottomPt = band.topPt + band.heightPt;
  }
  if (rate.length > 0) {
    const band = { topPt: bottomPt + 8, heightPt: 44, low: -0.5, high: Math.max(1.5, ceilTo(largest(rate), 0.5)) };
    drawPaper(shapes, band, 0.5, 1, endS, x, litS, words);
    shapes.push(caption(words.rateKPerMin, band, ink.quiet));
    for (const curve of rate) drawCurve(shapes, curve, band, x, { color: ink.text, widthPt: 0.9 });
    bottomPt = band.topPt + band.heightPt;
  }
  bottomPt = drawTimeAxis(shapes, bottomPt, endS, x, litS, words);
  bottomPt = drawMarks(shapes, marks, bottomPt, x, widthPt, words);
  return { widthPt, heightPt: bottomPt + 4, description: words.description, shapes };
}

function drawPaper(
  shapes: Shape[],
  band: Band,
  fineStep: number,
  labelStep: number,
  endS: number,
  x: (elapsedS: number) => number,
  litS: number,
  words: BurnFigureWords,
): void {
  const right = x(litS + endS);
  const bottomPt = band.topPt + band.heightPt;
  const fine: Stroke = { color: ink.paperLine, widthPt: 0.4 };
  for (let s = 0; s <= endS; s += 300) {
    shapes.push({
      kind: 'line',
      points: [
        [x(litS + s), band.topPt],
        [x(litS + s), bottomPt],
      ],
      stroke: fine,
    });
  }
  // The step may be a half; whole counts keep the labels free of rounding dust.
  for (let step = Math.ceil(band.low / fineStep); step * fineStep <= band.high; step++) {
    const value = step * fineStep;
    const labelled = value % labelStep === 0;
    const stroke = labelled ? { color: ink.rule, widthPt: 0.6 } : fine;
    shapes.push({
      kind: 'line',
      points: [
        [leftPt, yIn(band, value)],
        [right, yIn(band, value)],
      ],
      stroke,
    });
    if (!labelled) continue;
    shapes.push({
      kind: 'text',
      at: [leftPt - 4, yIn(band, value) + 2.5],
      text: words.number(value, 0),
      sizePt: labelPt,
      color: ink.quiet,
      anchor: 'end',
    });
  }
}

/** One line a stretch between gaps: nothing is drawn where nothing was read. */
function drawCurve(shapes: Shape[], curve: Curve, band: Band, x: (elapsedS: number) => number, stroke: Stroke): void {
  let stretch: Point[] = [];
  const finish = () => {
    if (stretch.length > 1) shapes.push({ kind: 'line', points: stretch, stroke });
    stretch = [];
  };
  curve.t.forEach((elapsedS, place) => {
    const value = curve.v[place];
    if (value === null || value === undefined) finish();
    else if (x(elapsedS) >= leftPt) {
      stretch.push([x(elapsedS), yIn(band, Math.min(band.high, Math.max(band.low, value)))]);
    }
  });
  finish();
}

function drawTimeAxis(
  shapes: Shape[],
  topPt: number,
  endS: number,
  x: (elapsedS: number) => number,
  litS: number,
  words: BurnFigureWords,
): number {
  const everyMin = endS > 4 * 3600 ? 60 : endS > 2 * 3600 ? 30 : 15;
  for (let minute = 0; minute * 60 <= endS; minute += everyMin) {
    const text = minute === 0 ? words.minutes : String(minute);
    const at: Point = [x(litS + minute * 60), topPt + 10];
    shapes.push({
      kind: 'text',
      at,
      text,
      sizePt: labelPt,
      color: ink.quiet,
      anchor: minute === 0 ? 'start' : 'middle',
    });
  }
  return topPt + 14;
}

/** Bars as tall as the wood was heavy, triangles for a nudge, ticks for the rest. */
function drawMarks(
  shapes: Shape[],
  marks: readonly Mark[],
  topPt: number,
  x: (elapsedS: number) => number,
  widthPt: number,
  words: BurnFigureWords,
): number {
  const laneHeightPt = 30;
  const floorPt = topPt + laneHeightPt;
  const heaviestKg = Math.max(0.5, ...marks.map((mark) => (mark.kind === 'fed' ? (mark.massKg ?? 0) : 0)));
  shapes.push({
    kind: 'line',
    points: [
      [leftPt, floorPt],
      [widthPt - 4, floorPt],
    ],
    stroke: { color: ink.text, widthPt: 0.7 },
  });
  shapes.push({
    kind: 'text',
    at: [widthPt - 4, floorPt + 10],
    text: words.woodKg,
    sizePt: labelPt,
    color: ink.quiet,
    anchor: 'end',
  });
  let labelledToPt = leftPt;
  for (const mark of [...marks].sort((a, b) => a.elapsedUs - b.elapsedUs)) {
    const at = Math.max(leftPt, x(mark.elapsedUs / 1e6));
    if (mark.kind === 'fed') {
      const heightPt = mark.massKg === undefined ? 6 : Math.max(3, (mark.massKg / heaviestKg) * (laneHeightPt - 6));
      const corners: Point[] = [
        [at, floorPt],
        [at, floorPt - heightPt],
        [at + 4, floorPt - heightPt],
        [at + 4, floorPt],
      ];
      if (mark.massKg === undefined)
        shapes.push({ kind: 'line', points: corners, stroke: { color: ink.wood, widthPt: 0.8 } });
      else shapes.push({ kind: 'area', points: corners, fill: ink.wood });
      if (mark.massKg !== undefined && at >= labelledToPt && at < widthPt - 60) {
        shapes.push({
          kind: 'text',
          at: [at, floorPt + 10],
          text: words.number(mark.massKg, 2),
          sizePt: labelPt,
          color: ink.text,
          anchor: 'start',
        });
        labelledToPt = at + 24;
      }
    } else if (mark.kind === 'nudged') {
      shapes.push({
        kind: 'line',
        points: [
          [at - 3, floorPt],
          [at, floorPt - 6],
          [at + 3, floorPt],
          [at - 3, floorPt],
        ],
        stroke: { color: ink.text, widthPt: 0.7 },
      });
    } else {
      shapes.push({
        kind: 'line',
        points: [
          [at, floorPt],
          [at, floorPt - 9],
        ],
        stroke: { color: ink.quiet, widthPt: 0.7, dash: [1.5, 1.5] },
      });
    }
  }
  return floorPt + 14;
}

function caption(text: string, band: Band, color: string): Shape {
  return { kind: 'text', at: [leftPt + 4, band.topPt + 9], text, sizePt: 8, color, anchor: 'start' };
}

function legend(name: string, stroke: Stroke, band: Band, place: number, widthPt: number): Shape[] {
  const yPt = band.topPt + 8 + place * 9;
  return [
    {
      kind: 'line',
      points: [
        [widthPt - 30, yPt - 2.5],
        [widthPt - 8, yPt - 2.5],
      ],
      stroke,
    },
    { kind: 'text', at: [widthPt - 34, yPt], text: name, sizePt: labelPt, color: stroke.color, anchor: 'end' },
  ];
}

function yIn(band: Band, value: number): number {
  return band.topPt + band.heightPt * (1 - (value - band.low) / (band.high - band.low));
}

function largest(curves: readonly Curve[]): number {
  return curves.reduce(
    (high, curve) => curve.v.reduce((most: number, value) => Math.max(most, value ?? most), high),
    0,
  );
}

function ceilTo(value: number, step: number): number {
  return Math.ceil(value / step) * step;
}

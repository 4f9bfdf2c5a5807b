/** Words among the curves of the water, each where it lies on no curve and on no other word. */
import type { Chart, Scale } from 'chart.js';
import { stretchesOf } from '../../shared/plot/curve-paths.ts';
import { type Box, freeBox, type Surroundings } from '../../shared/plot/label-places.ts';
import type { Point } from '../../shared/plot/shapes.ts';
import {
  type Drawing,
  fontFamily,
  metaPoints,
  panelOf,
  type TimeChartPlugin,
  writeLabel,
  xOf,
} from './chart-plugin.ts';
import { paintShapes } from './paint-shapes.ts';
import { levelStyles, type TimeChartLevel, type TimeChartModel } from './time-chart-model.ts';

const labelPx = 12;
/** Above and below the base line of a label. */
const [ascent, descent] = [11, 4];
const samplePx = 20;
const nearPx = 12;
/** Labels have some room around them. */
const givesWayPx = 3;
const shares = [1, 0.75, 0.5, 0.25, 0];

interface PlacedLabel {
  readonly text: string;
  readonly box: Box;
  readonly ink: 'ink' | 'quiet' | TimeChartModel['curves'][number]['style']['ink'];
  /** The kind of line that the label names, drawn before it. */
  readonly level?: TimeChartLevel['kind'];
  /** The curve whose newest figure it is. */
  readonly curveId?: string;
}

/** What decides where the labels stand: their words, and pixels that a curve or a line has to move by before they give way. */
interface Situation {
  readonly words: readonly string[];
  readonly pixels: readonly number[];
}

export function chartLabels(drawing: Drawing): TimeChartPlugin {
  let placed: (Situation & { readonly labels: readonly PlacedLabel[] }) | undefined;
  return {
    id: 'chartLabels',
    afterUpdate() {
      placed = undefined;
    },
    afterDatasetsDraw(chart) {
      // The cursor moves over the same curves, and a scan adds little to them: where their labels stand is worked out once.
      const situation = situationOf(chart, drawing);
      if (!placed || !isAlike(placed, situation)) placed = { ...situation, labels: placeLabels(chart, drawing) };
      const notes = new Map(drawing.model.curves.map(({ id, note }) => [id, note]));
      for (const label of placed.labels)
        write(chart, drawing, { ...label, text: notes.get(label.curveId ?? '') ?? label.text });
    },
  };
}

function situationOf(chart: Chart, { model }: Drawing): Situation {
  const up = panelOf(chart, 'plot');
  if (!up) return { words: [], pixels: [] };
  const x = xOf(chart);
  const { curves, now, fan, momentLines } = model;
  const levels = shownLevels(model);
  const shown = curves.filter(({ panel }) => panel === 'plot');
  return {
    words: [
      ...levels.map(({ label }) => label),
      ...momentLines.map(({ label }) => label),
      // A figure that changes is as wide as the one before.
      ...shown.map(({ note, isOld }) => `${note?.length} ${isOld}`),
    ],
    pixels: [
      ...(now ? [x.getPixelForValue(now.atMin), up.getPixelForValue(now.value)] : []),
      ...(fan ? [fan.fromMin, ...fan.arrivals].map((minute) => x.getPixelForValue(minute)) : []),
      ...levels.map(({ value }) => up.getPixelForValue(value)),
      ...momentLines.map(({ atMin }) => x.getPixelForValue(atMin)),
      ...shown.flatMap((curve) => [
        x.getPixelForValue(curve.x.at(-1) ?? 0),
        up.getPixelForValue(curve.y.at(-1) ?? up.min),
      ]),
    ],
  };
}

function isAlike(a: Situation, b: Situation): boolean {
  return (
    a.words.length === b.words.length &&
    a.pixels.length === b.pixels.length &&
    a.words.every((word, index) => word === b.words[index]) &&
    a.pixels.every((pixel, index) => Math.abs(pixel - b.pixels[index]!) <= givesWayPx)
  );
}

function write(chart: Chart, { palette }: Drawing, { text, box, ink, level }: PlacedLabel): void {
  const baseline = box.bottom - descent;
  const left = level ? box.left + samplePx + 4 : box.left;
  writeLabel(chart.ctx, text, left, baseline, { ink: palette[ink], background: palette.background });
  if (!level) return;
  const points: Point[] = [
    [box.left, baseline - 4],
    [box.left + samplePx, baseline - 4],
  ];
  paintShapes(chart.ctx, [{ kind: 'line', points, style: levelStyles[level] }], palette);
}

function placeLabels(chart: Chart, { model }: Drawing): PlacedLabel[] {
  const up = panelOf(chart, 'plot');
  if (!up) return [];
  const x = xOf(chart);
  const context = chart.ctx;
  context.save();
  context.font = `${labelPx}px ${fontFamily}`;
  const taken: Box[] = [];
  const surroundings: Surroundings = {
    within: { left: x.left, right: x.right, top: up.top, bottom: up.bottom },
    curves: [...drawnCurves(chart), ...linesOf(model, x, up)],
    taken,
  };
  const placed: PlacedLabel[] = [];
  const place = (label: Omit<PlacedLabel, 'box'>, candidates: (width: number) => Box[]) => {
    const width = context.measureText(label.text).width + (label.level ? samplePx + 4 : 0);
    const box = freeBox(candidates(width), surroundings);
    if (!box) return;
    taken.push(box);
    placed.push({ ...label, box });
  };
  if (model.now) taken.push(around([x.getPixelForValue(model.now.atMin), up.getPixelForValue(model.now.value)], 6));
  const levels = shownLevels(model);
  for (const { value, label, kind } of levels)
    place({ text: label, ink: 'ink', level: kind }, (width) => {
      const y = up.getPixelForValue(value);
      // The words of lines close together stand in one row, above the highest of them.
      const near = levels.map((other) => up.getPixelForValue(other.value)).filter((other) => y - other < nearPx);
      const top = Math.min(...near.filter((other) => other <= y));
      const lefts = [
        ...shares.map((share) => x.left + 3 + share * (x.width - width - 6)),
        ...taken.map(({ left }) => left - width - 8),
      ].sort((a, b) => b - a);
      return [top - 3 - descent, y + 3 + ascent].flatMap((baseline) =>
        lefts.map((left) => boxAt(left, baseline, width)),
      );
    });
  const { momentLines } = model;
  for (const { atMin, label } of momentLines) {
    if (atMin < model.range.fromMin || atMin > model.range.toMin) continue;
    place({ text: label, ink: 'quiet' }, (width) => {
      const at = x.getPixelForValue(atMin);
      const rows = Array.from({ length: Math.floor((up.bottom - up.top) / 15) }, (_, row) => up.bottom - 6 - row * 15);
      const sides = [at + 4, at - 4 - width];
      // Of two moments close together the earlier one is named on the left.
      if (momentLines.some((next) => next.atMin > atMin && x.getPixelForValue(next.atMin) - at < width))
        sides.reverse();
      return rows.flatMap((baseline) => sides.map((left) => boxAt(left, baseline, width)));
    });
  }
  for (const { curve, stretch, note } of notedCurves(model, x, up))
    place({ text: note, ink: curve.isOld ? 'quiet' : curve.style.ink, curveId: curve.id }, (width) =>
      alongCurve(stretch, width),
    );
  context.restore();
  return placed;
}

function boxAt(left: number, baseline: number, width: number): Box {
  return { left, right: left + width, top: baseline - ascent, bottom: baseline + descent };
}

function around([x, y]: Point, by: number): Box {
  return { left: x - by, right: x + by, top: y - by, bottom: y + by };
}

/** Behind the end of a curve, else above or below it, the nearer to its end the better. */
function alongCurve(stretch: readonly Point[], width: number): Box[] {
  const end = stretch.at(-1) as Point;
  const along = shares.map((share) => stretch[Math.round(share * (stretch.length - 1))] as Point);
  return [
    boxAt(end[0] + 5, end[1] + 4, width),
    ...along.flatMap(([atX, atY]) =>
      [atY - 3 - descent, atY + 3 + ascent].flatMap((baseline) =>
        [atX - width, atX - width / 2].map((left) => boxAt(left, baseline, width)),
      ),
    ),
  ];
}

/** The curves by the points that Chart.js draws, which are fewer. */
function drawnCurves(chart: Chart): Point[][] {
  const same = (place: number) => place;
  return chart
    .getSortedVisibleDatasetMetas()
    .filter(({ yAxisID }) => yAxisID === 'plot')
    .flatMap((meta) => {
      const points = metaPoints(meta);
      return stretchesOf(
        points.map(({ x }) => x),
        points.map(({ skip, y }) => (skip ? null : y)),
        same,
        same,
      );
    });
}

/** The fan and the lines across and down the paper, which labels keep off as well. */
function linesOf(model: TimeChartModel, x: Scale, up: Scale): Point[][] {
  const { fan, momentLines } = model;
  const fanEdges = (fan?.arrivals ?? []).map((arrival): Point[] => [
    [x.getPixelForValue(fan!.fromMin), up.getPixelForValue(fan!.from)],
    [x.getPixelForValue(arrival), up.getPixelForValue(fan!.to)],
  ]);
  return [
    ...fanEdges,
    ...shownLevels(model).map(({ value }): Point[] => [
      [x.left, up.getPixelForValue(value)],
      [x.right, up.getPixelForValue(value)],
    ]),
    ...momentLines.map(({ atMin }): Point[] => [
      [x.getPixelForValue(atMin), up.top],
      [x.getPixelForValue(atMin), up.bottom],
    ]),
  ];
}

export function shownLevels({ levels = [], plot: { low, high } }: TimeChartModel): readonly TimeChartLevel[] {
  return levels.filter(({ value }) => value >= low && value <= high);
}

function notedCurves({ curves }: TimeChartModel, x: Scale, up: Scale) {
  return curves.flatMap((curve) => {
    if (curve.panel !== 'plot' || curve.note === undefined) return [];
    const inSight = stretchesOf(curve.x, curve.y, at(x), at(up)).map((stretch) =>
      stretch.filter(([place]) => place >= x.left && place <= x.right),
    );
    const stretch = inSight.filter(({ length }) => length > 0).at(-1);
    return stretch ? [{ curve, stretch, note: curve.note }] : [];
  });
}

function at(scale: Scale): (value: number) => number {
  return (value) => scale.getPixelForValue(value);
}

/** The track of the person's own actions, under the curves on the same time axis. */

import type { Chart } from 'chart.js';
import { MARK_KINDS } from '../../shared/contract/mark-kinds.ts';
import { spread } from '../../shared/plot/label-places.ts';
import { type MarkSign, markShapes, markStep } from '../../shared/plot/mark-shapes.ts';
import { type Drawing, fontFamily, xOf } from './chart-plugin.ts';
import { paintShapes } from './paint-shapes.ts';
import type { TimeChartMark, TimeChartTrack } from './time-chart-model.ts';

/** A charge this heavy fills the track, unless a heavier one was fed. */
const tallChargeKg = 1;
const textRoomPx = 15;

export function paintMarkTracks(context: CanvasRenderingContext2D, chart: Chart, drawing: Drawing): void {
  for (const [index, track] of drawing.model.tracks.entries()) drawTrack(context, chart, drawing, track, index);
  drawMomentLines(context, chart, drawing);
}

/** Pixel height of the baseline of a track. */
export function trackBaseline(chart: Chart, { heights }: Drawing, index: number): number {
  return chart.chartArea.bottom + heights.axis + heights.track * (index + 1) - textRoomPx - 0.5;
}

function drawTrack(
  context: CanvasRenderingContext2D,
  chart: Chart,
  drawing: Drawing,
  track: TimeChartTrack,
  index: number,
): void {
  const { palette, heights, model } = drawing;
  const x = xOf(chart);
  const baseline = trackBaseline(chart, drawing, index);
  const room = heights.track - textRoomPx - 2;
  const heaviest = Math.max(
    tallChargeKg,
    ...model.tracks.flatMap(({ marks }) => marks.map(({ massKg }) => massKg ?? 0)),
  );
  context.save();
  context.strokeStyle = palette[track.style?.ink ?? 'ink'];
  context.lineWidth = track.style ? 1.75 : 1.25;
  context.setLineDash([...(track.style?.dash ?? [])]);
  context.beginPath();
  context.moveTo(x.left, baseline);
  context.lineTo(x.right, baseline);
  context.stroke();
  context.restore();

  context.save();
  context.beginPath();
  context.rect(x.left - 4, baseline - room - 4, x.width + 8, room + textRoomPx + 8);
  context.clip();
  const places = markPlaces(chart, track);
  for (const [index, mark] of track.marks.entries())
    paintShapes(context, markShapes(signOf(mark, room / heaviest), [places[index] ?? 0, baseline]), palette);
  context.restore();
  writeMasses(context, chart, drawing, track, baseline, places);
}

/** Where the signs of a track stand, in pixels: as near their moments as they can without lying on each other. */
export function markPlaces(chart: Chart, { marks }: TimeChartTrack): number[] {
  const x = xOf(chart);
  const at = marks.map(({ atMin }) => x.getPixelForValue(atMin));
  const isShown = at.map((place) => place >= x.left && place <= x.right);
  const shown = spread(
    at.filter((_, index) => isShown[index]),
    x.left,
    x.right,
    markStep,
  );
  let next = 0;
  return at.map((place, index) => (isShown[index] ? (shown[next++] ?? place) : place));
}

function signOf({ kind, massKg, waiting = false }: TimeChartMark, pxPerKg: number): MarkSign {
  const bar = massKg === undefined ? undefined : massKg * pxPerKg;
  return { sign: MARK_KINDS[kind].sign, isLidOn: kind === 'lidOn', bar, isHollow: waiting };
}

/** Masses under their bars; one that would run into its neighbour is left out (the log beside the chart has them all). */
function writeMasses(
  context: CanvasRenderingContext2D,
  chart: Chart,
  { palette, model }: Drawing,
  track: TimeChartTrack,
  baseline: number,
  places: readonly number[],
): void {
  const x = xOf(chart);
  context.save();
  context.font = `12px ${fontFamily}`;
  context.fillStyle = palette.ink;
  const label = track.label ?? model.trackUnit;
  const labelWidth = context.measureText(label).width;
  let free = x.left - 10;
  for (const [index, mark] of track.marks.entries()) {
    if (!mark.text || mark.atMin < model.range.fromMin || mark.atMin > model.range.toMin) continue;
    const width = context.measureText(mark.text).width;
    const from = Math.max(x.left, (places[index] ?? 0) - width / 2);
    if (from < free + 6 || from + width > x.right - labelWidth - 6) continue;
    context.fillText(mark.text, from, baseline + 13);
    free = from + width;
  }
  context.textAlign = 'right';
  context.fillStyle = palette[track.style?.ink ?? 'quiet'];
  context.fillText(label, x.right, baseline + 13);
  context.restore();
}

/** Moments of the burn (lit, boil, hold) as fine dotted lines down the paper. */
function drawMomentLines(context: CanvasRenderingContext2D, chart: Chart, { palette, model }: Drawing): void {
  const x = xOf(chart);
  const scale = chart.scales.plot;
  if (!scale) return;
  context.save();
  context.strokeStyle = palette.quiet;
  context.setLineDash([1, 3]);
  for (const { atMin } of model.momentLines) {
    if (atMin < model.range.fromMin || atMin > model.range.toMin) continue;
    const at = Math.round(x.getPixelForValue(atMin)) + 0.5;
    context.beginPath();
    context.moveTo(at, scale.top);
    context.lineTo(at, chart.chartArea.bottom);
    context.stroke();
  }
  context.restore();
}

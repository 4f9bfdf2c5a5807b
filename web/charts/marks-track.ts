/**
 * The track of the person's own actions, under the curves on the same time axis.
 * A bar is wood, as tall as it was heavy; a small triangle is a poke; a roof is the lid; a ring is anything else.
 */

import type { Chart } from 'chart.js';
import { MARK_KINDS } from '../../shared/contract/mark-kinds.ts';
import { type Drawing, fontFamily, type TimeChartPlugin, xOf } from './chart-plugin.ts';
import type { TimeChartMark, TimeChartTrack } from './time-chart-model.ts';

/** A charge this heavy fills the track, unless a heavier one was fed. */
const tallChargeKg = 1;
const textRoomPx = 15;

export function marksTrack(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'marksLane',
    afterDatasetsDraw(chart) {
      for (const [index, track] of drawing.model.tracks.entries()) drawTrack(chart, drawing, track, index);
      drawMomentLines(chart, drawing);
    },
  };
}

/** Pixel height of the baseline of a track. */
export function trackBaseline(chart: Chart, { heights }: Drawing, index: number): number {
  return chart.chartArea.bottom + heights.axis + heights.track * (index + 1) - textRoomPx - 0.5;
}

function drawTrack(chart: Chart, drawing: Drawing, track: TimeChartTrack, index: number): void {
  const { palette, heights, model } = drawing;
  const x = xOf(chart);
  const context = chart.ctx;
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
  for (const mark of track.marks)
    drawMark(context, drawing, mark, x.getPixelForValue(mark.atMin), baseline, (room / heaviest) * (mark.massKg ?? 0));
  context.restore();
  writeMasses(chart, drawing, track, baseline);
}

function drawMark(
  context: CanvasRenderingContext2D,
  { palette }: Drawing,
  mark: TimeChartMark,
  x: number,
  baseline: number,
  barPx: number,
): void {
  context.save();
  context.lineWidth = 1.5;
  context.strokeStyle = palette.ink;
  context.fillStyle = palette.background;
  context.beginPath();
  const { sign } = MARK_KINDS[mark.kind];
  switch (sign) {
    case 'wood':
    case 'woodOut': {
      const height = mark.massKg === undefined ? 9 : Math.max(3, barPx);
      context.rect(x - 2.5, baseline - height, 5, height);
      context.fillStyle = palette.ember;
      context.strokeStyle = palette.ember;
      // Unweighed wood, wood taken out again and wood not confirmed yet are hollow: they are no sure mass in the fire.
      if (mark.massKg === undefined || mark.waiting || sign === 'woodOut') context.stroke();
      else context.fill();
      break;
    }
    case 'triangle':
      context.moveTo(x - 4, baseline);
      context.lineTo(x, baseline - 8.5);
      context.lineTo(x + 4, baseline);
      context.closePath();
      context.fill();
      context.stroke();
      break;
    case 'lid': {
      const lift = mark.kind === 'lidOn' ? 3 : 9;
      context.moveTo(x - 5, baseline - lift);
      context.lineTo(x + 5, baseline - lift);
      context.moveTo(x, baseline - lift);
      context.lineTo(x, baseline - lift - 3);
      context.stroke();
      break;
    }
    case 'line':
      context.moveTo(x, baseline);
      context.lineTo(x, baseline - 24);
      context.stroke();
      break;
    case 'ring':
      context.arc(x, baseline - 5, 3, 0, Math.PI * 2);
      context.fill();
      context.stroke();
  }
  context.restore();
}

/** Masses under their bars; one that would run into its neighbour is left out (the log beside the chart has them all). */
function writeMasses(chart: Chart, { palette, model }: Drawing, track: TimeChartTrack, baseline: number): void {
  const x = xOf(chart);
  const context = chart.ctx;
  context.save();
  context.font = `12px ${fontFamily}`;
  context.fillStyle = palette.ink;
  const label = track.label ?? model.trackUnit;
  const labelWidth = context.measureText(label).width;
  let free = x.left - 10;
  for (const mark of track.marks) {
    if (!mark.text || mark.atMin < model.range.fromMin || mark.atMin > model.range.toMin) continue;
    const width = context.measureText(mark.text).width;
    const from = Math.max(x.left, x.getPixelForValue(mark.atMin) - width / 2);
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
function drawMomentLines(chart: Chart, { palette, model }: Drawing): void {
  const x = xOf(chart);
  const scale = chart.scales.plot;
  if (!scale) return;
  const context = chart.ctx;
  context.save();
  context.font = `12px ${fontFamily}`;
  let free = Number.NEGATIVE_INFINITY;
  for (const { atMin, label } of model.momentLines) {
    if (atMin < model.range.fromMin || atMin > model.range.toMin) continue;
    const at = Math.round(x.getPixelForValue(atMin)) + 0.5;
    context.strokeStyle = palette.quiet;
    context.setLineDash([1, 3]);
    context.beginPath();
    context.moveTo(at, scale.top);
    context.lineTo(at, chart.chartArea.bottom);
    context.stroke();
    const width = context.measureText(label).width;
    const left = Math.min(at + 4, x.right - width);
    if (left < free) continue;
    context.setLineDash([]);
    context.lineWidth = 4;
    context.strokeStyle = palette.background;
    context.strokeText(label, left, scale.bottom - 6);
    context.lineWidth = 1;
    context.fillStyle = palette.quiet;
    context.fillText(label, left, scale.bottom - 6);
    free = left + width + 6;
  }
  context.restore();
}

/** Level to reach, floor to keep, where the water is now, and the fan of times at which it may arrive. */
import type { Chart } from 'chart.js';
import { type Drawing, panelOf, type TimeChartPlugin, writeLabel, xOf } from './chart-plugin.ts';

/** Nested wedges at about 50, 80 and 95 % of a normal spread, as shares of the 95 % half-width. */
const wedges = [1, 0.654, 0.344];

const labelRoomPx = 170;

export function prediction(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'prediction',
    beforeDatasetsDraw: (chart) => drawFan(chart, drawing),
    afterDatasetsDraw(chart) {
      drawLevel(chart, drawing);
      drawNow(chart, drawing);
    },
  };
}

function drawFan(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  const { fan } = model;
  if (!scale || !fan) return;
  const x = xOf(chart);
  const context = chart.ctx;
  const [early, likely, late] = fan.arrivals;
  const top = scale.getPixelForValue(fan.to);
  context.save();
  context.beginPath();
  context.rect(x.left, scale.top, x.width, scale.height);
  context.clip();
  context.fillStyle = palette.water;
  context.globalAlpha = 0.16;
  for (const share of wedges) {
    context.beginPath();
    context.moveTo(x.getPixelForValue(fan.fromMin), scale.getPixelForValue(fan.from));
    context.lineTo(x.getPixelForValue(likely - (likely - early) * share), top);
    context.lineTo(x.getPixelForValue(likely + (late - likely) * share), top);
    context.closePath();
    context.fill();
  }
  context.restore();
}

function drawLevel(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const x = xOf(chart);
  const context = chart.ctx;
  for (const [line, dash, below] of [
    [model.level, [1.5, 2.5], false],
    [model.floor, [5, 3], true],
  ] as const) {
    if (!line || line.value > model.plot.high || line.value < model.plot.low) continue;
    const at = Math.round(scale.getPixelForValue(line.value)) + 0.5;
    context.save();
    context.strokeStyle = palette.ink;
    context.setLineDash(dash);
    context.beginPath();
    context.moveTo(x.left, at);
    context.lineTo(x.right, at);
    context.stroke();
    context.restore();
    // The label stands where the curve is not: on the right until the burn gets there.
    const isLate = model.now !== undefined && x.getPixelForValue(model.now.atMin) > x.right - labelRoomPx;
    writeLabel(chart.ctx, line.label, isLate ? x.left + 34 : x.right - 3, below ? at + 13 : at - 4, {
      ink: palette.ink,
      background: palette.background,
      align: isLate ? 'left' : 'right',
    });
  }
}

function drawNow(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale || !model.now) return;
  const { atMin, value, isOld = false } = model.now;
  if (atMin < model.range.fromMin || atMin > model.range.toMin) return;
  const context = chart.ctx;
  context.save();
  context.beginPath();
  context.arc(xOf(chart).getPixelForValue(atMin), scale.getPixelForValue(value), 5.5, 0, Math.PI * 2);
  context.fillStyle = isOld ? palette.quiet : palette.water;
  context.fill();
  context.lineWidth = 2;
  context.strokeStyle = palette.background;
  context.stroke();
  context.restore();
}

/** Levels to reach and to keep, where the water is now, and the fan of times at which it may arrive. */
import type { Chart } from 'chart.js';
import type { Point } from '../../shared/plot/shapes.ts';
import { shownLevels } from './chart-labels.ts';
import { type Drawing, panelOf, type TimeChartPlugin, xOf } from './chart-plugin.ts';
import { paintShapes } from './paint-shapes.ts';
import { levelStyles } from './time-chart-model.ts';

/** Nested wedges at about 50, 80 and 95 % of a normal spread, as shares of the 95 % half-width. */
const wedges = [1, 0.654, 0.344];

export function prediction(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'prediction',
    beforeDatasetsDraw(chart) {
      drawFan(chart, drawing);
      drawArea(chart, drawing);
    },
    afterDatasetsDraw(chart) {
      drawLevels(chart, drawing);
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

function drawArea(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale || !model.area) return;
  const x = xOf(chart);
  const points = model.area.map(
    ([minute, value]): Point => [x.getPixelForValue(minute), scale.getPixelForValue(value)],
  );
  chart.ctx.save();
  chart.ctx.globalAlpha = 0.22;
  paintShapes(chart.ctx, [{ kind: 'area', points, ink: 'water' }], palette);
  chart.ctx.restore();
}

function drawLevels(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const { left, right } = xOf(chart);
  paintShapes(
    chart.ctx,
    shownLevels(model).map(({ value, kind }) => {
      const at = Math.round(scale.getPixelForValue(value)) + 0.5;
      const points: Point[] = [
        [left, at],
        [right, at],
      ];
      return { kind: 'line', points, style: levelStyles[kind] };
    }),
    palette,
  );
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

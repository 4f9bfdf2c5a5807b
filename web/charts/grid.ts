/** Squares under the water curve, a small one being 5 min by 5 K; and rules around the bands. */
import type { Chart } from 'chart.js';
import { minuteStep, multiplesIn } from '../../shared/plot/ticks.ts';
import { type Drawing, panelOf, xOf } from './chart-plugin.ts';
import { squareMin } from './time-chart-model.ts';

/** Squares narrower than this turn to grey mush: then only every second, third … line is drawn. */
const narrowestSquarePx = 4;

export function paintGrid(context: CanvasRenderingContext2D, chart: Chart, drawing: Drawing): void {
  drawSquares(context, chart, drawing);
  drawBandRules(context, chart, drawing);
}

function drawSquares(context: CanvasRenderingContext2D, chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const x = xOf(chart);
  const { fromMin, toMin } = model.range;
  const { low, high, square, labelEvery } = model.plot;
  const step = minuteStep(toMin - fromMin, x.width);
  const pixelsASquare = (x.width / (toMin - fromMin)) * squareMin;
  const every = squareMin * Math.ceil(narrowestSquarePx / pixelsASquare);
  context.save();
  context.lineWidth = 1;
  for (const strong of [false, true]) {
    context.strokeStyle = strong ? palette.line : palette.square;
    context.beginPath();
    for (const minute of multiplesIn(fromMin, toMin, every)) {
      if ((minute % step === 0) !== strong) continue;
      const at = crisp(x.getPixelForValue(minute));
      context.moveTo(at, scale.top);
      context.lineTo(at, scale.bottom);
    }
    for (const value of multiplesIn(low, high, square)) {
      if ((value % labelEvery === 0) !== strong) continue;
      const at = crisp(scale.getPixelForValue(value));
      context.moveTo(x.left, at);
      context.lineTo(x.right, at);
    }
    context.stroke();
  }
  context.restore();
}

function drawBandRules(context: CanvasRenderingContext2D, chart: Chart, { palette }: Drawing): void {
  const x = xOf(chart);
  context.save();
  context.strokeStyle = palette.line;
  context.beginPath();
  for (const panel of ['hot', 'rate'] as const) {
    const band = panelOf(chart, panel);
    if (!band) continue;
    context.moveTo(x.left, crisp(band.bottom));
    context.lineTo(x.right, crisp(band.bottom));
  }
  const rate = panelOf(chart, 'rate');
  if (rate) {
    const zero = crisp(rate.getPixelForValue(0));
    context.moveTo(x.left, zero);
    context.lineTo(x.right, zero);
  }
  context.stroke();
  context.restore();
}

function crisp(pixel: number): number {
  return Math.round(pixel) + 0.5;
}

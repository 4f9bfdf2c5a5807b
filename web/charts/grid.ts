/** Graph paper under the water curve, one small square being 5 min by 5 K, with the figures of both axes; and rules around the bands. */
import type { Chart } from 'chart.js';
import { type Drawing, panelOf, type TimeChartPlugin, writeLabel, xOf } from './chart-plugin.ts';
import { spread } from './label-spacing.ts';
import { minuteStep, squareMin } from './time-chart-model.ts';

/** Squares narrower than this turn to grey mush: then only every second, third … line is drawn. */
const narrowestSquarePx = 4;

export function grid(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'graphPaper',
    beforeDatasetsDraw(chart) {
      drawSquares(chart, drawing);
      drawBandRules(chart, drawing);
    },
    afterDatasetsDraw(chart) {
      writeTemperatures(chart, drawing);
      writeMinutes(chart, drawing);
      writeBandLabels(chart, drawing);
      writeNotes(chart, drawing);
    },
  };
}

function drawSquares(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const x = xOf(chart);
  const context = chart.ctx;
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
    for (let minute = Math.ceil(fromMin / every) * every; minute <= toMin; minute += every) {
      if ((minute % step === 0) !== strong) continue;
      const at = crisp(x.getPixelForValue(minute));
      context.moveTo(at, scale.top);
      context.lineTo(at, scale.bottom);
    }
    for (let value = Math.ceil(low / square) * square; value <= high + 1e-9; value += square) {
      if ((value % labelEvery === 0) !== strong) continue;
      const at = crisp(scale.getPixelForValue(value));
      context.moveTo(x.left, at);
      context.lineTo(x.right, at);
    }
    context.stroke();
  }
  context.restore();
}

function drawBandRules(chart: Chart, { palette }: Drawing): void {
  const x = xOf(chart);
  const context = chart.ctx;
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

function writeTemperatures(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const { low, high, labelEvery } = model.plot;
  for (let value = Math.ceil(low / labelEvery) * labelEvery; value < high; value += labelEvery) {
    const at = scale.getPixelForValue(value);
    if (value <= low || at - scale.top < 14) continue;
    writeLabel(chart.ctx, model.writeFigure(value), xOf(chart).left + 3, at - 4, {
      ink: palette.quiet,
      background: palette.background,
    });
  }
}

function writeMinutes(chart: Chart, { model, palette, heights }: Drawing): void {
  const x = xOf(chart);
  const { fromMin, toMin } = model.range;
  const step = minuteStep(toMin - fromMin, x.width);
  const baseline = chart.chartArea.bottom + heights.axis - 7;
  for (let minute = Math.ceil(fromMin / step) * step; minute <= toMin; minute += step) {
    const at = x.getPixelForValue(minute);
    const align = at - x.left < 12 ? 'left' : x.right - at < 20 ? 'right' : 'center';
    writeLabel(chart.ctx, model.writeMinute(minute), at, baseline, {
      ink: palette.quiet,
      background: palette.background,
      align,
    });
  }
}

function writeBandLabels(chart: Chart, { model, palette }: Drawing): void {
  const x = xOf(chart);
  for (const panel of ['hot', 'rate'] as const) {
    const band = panelOf(chart, panel);
    const range = model[panel];
    if (!band || !range) continue;
    writeLabel(chart.ctx, range.label, x.left + 3, band.top + 14, {
      ink: palette.quiet,
      background: palette.background,
    });
    const noted = model.curves.filter((curve) => curve.panel === panel && curve.note !== undefined);
    const wanted = noted.map((curve) => band.getPixelForValue(lastValue(curve.y) ?? range.low) + 4);
    const baselines = spread(wanted, band.top + 12, band.bottom - 3, 13);
    for (const [index, curve] of noted.entries()) {
      writeLabel(chart.ctx, curve.note ?? '', x.right - 2, baselines[index] ?? band.bottom, {
        ink: palette[curve.isOld ? 'quiet' : curve.style.ink],
        background: palette.background,
        align: 'right',
      });
    }
  }
}

/** Names of what is drawn on the paper beside the water, at the end of each curve. */
function writeNotes(chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const x = xOf(chart);
  const noted = model.curves.flatMap((curve) => {
    const value = lastValue(curve.y);
    const last = curve.x.at(-1);
    if (curve.panel !== 'plot' || curve.note === undefined || value === undefined || last === undefined) return [];
    const end = x.getPixelForValue(last);
    const fits = end + 120 < x.right;
    const wanted = scale.getPixelForValue(value) - (fits ? -4 : 6);
    return end < x.left ? [] : [{ curve, note: curve.note, end, fits, wanted }];
  });
  const baselines = spread(
    noted.map(({ wanted }) => wanted),
    scale.top + 12,
    scale.bottom - 3,
    13,
  );
  for (const [index, { curve, note, end, fits, wanted }] of noted.entries()) {
    writeLabel(chart.ctx, note, Math.min(end, x.right) + (fits ? 5 : -3), baselines[index] ?? wanted, {
      ink: palette[curve.isOld ? 'quiet' : curve.style.ink],
      background: palette.background,
      align: fits ? 'left' : 'right',
    });
  }
}

function lastValue(values: readonly (number | null)[]): number | undefined {
  for (let at = values.length - 1; at >= 0; at -= 1) {
    const value = values[at];
    if (value !== null && value !== undefined) return value;
  }
  return undefined;
}

function crisp(pixel: number): number {
  return Math.round(pixel) + 0.5;
}

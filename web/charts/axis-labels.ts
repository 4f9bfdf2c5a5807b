/** Figures of both axes: temperatures at the left, minutes from lighting below. */
import type { Chart } from 'chart.js';
import { minuteStep, multiplesIn } from '../../shared/plot/ticks.ts';
import { type Drawing, panelOf, writeLabel, xOf } from './chart-plugin.ts';

export function paintAxisLabels(context: CanvasRenderingContext2D, chart: Chart, drawing: Drawing): void {
  writeTemperatures(context, chart, drawing);
  writeMinutes(context, chart, drawing);
}

function writeTemperatures(context: CanvasRenderingContext2D, chart: Chart, { model, palette }: Drawing): void {
  const scale = panelOf(chart, 'plot');
  if (!scale) return;
  const { low, high, labelEvery } = model.plot;
  for (const value of multiplesIn(low, high, labelEvery)) {
    const at = scale.getPixelForValue(value);
    // Within the height of the paper, whatever stands above and below it.
    const baseline = Math.min(scale.bottom, Math.max(scale.top + 9, at + 4));
    writeLabel(context, model.writeFigure(value), xOf(chart).left - 4, baseline, {
      ink: palette.quiet,
      background: palette.background,
      align: 'right',
    });
  }
}

function writeMinutes(context: CanvasRenderingContext2D, chart: Chart, { model, palette, heights }: Drawing): void {
  const x = xOf(chart);
  const { fromMin, toMin } = model.range;
  const step = minuteStep(toMin - fromMin, x.width);
  const baseline = chart.chartArea.bottom + heights.axis - 7;
  for (const minute of multiplesIn(fromMin, toMin, step)) {
    const at = x.getPixelForValue(minute);
    const align = x.right - at < 20 ? 'right' : 'center';
    writeLabel(context, minuteLabel(minute), at, baseline, {
      ink: palette.quiet,
      background: palette.background,
      align,
    });
  }
}

/** Minutes up to two hours, then hours: 90, 2 h, 2:30. */
export function minuteLabel(minute: number): string {
  if (Math.abs(minute) < 120) return String(minute).replace('-', '−');
  const hours = Math.floor(minute / 60);
  const rest = minute % 60;
  return rest === 0 ? `${hours}\u00a0h` : `${hours}:${String(rest).padStart(2, '0')}`;
}

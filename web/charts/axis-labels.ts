/** Figures of both axes: temperatures at the left, minutes from lighting below. */
import type { Chart } from 'chart.js';
import { type Drawing, panelOf, type TimeChartPlugin, writeLabel, xOf } from './chart-plugin.ts';
import { minuteStep } from './time-chart-model.ts';

export function axisLabels(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'axisLabels',
    afterDatasetsDraw(chart) {
      writeTemperatures(chart, drawing);
      writeMinutes(chart, drawing);
    },
  };
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
    writeLabel(chart.ctx, minuteLabel(minute), at, baseline, {
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

/** Gaps hatched over all panels, so that missing data are seen to be missing; and the cursor's hairline. */
import type { Chart } from 'chart.js';
import type { Sheet, StripPlugin } from './plugin.ts';
import { xOf } from './plugin.ts';

export function overlays(sheet: Sheet): StripPlugin {
  return {
    id: 'overlays',
    beforeDatasetsDraw: (chart) => drawGaps(chart, sheet),
    afterDatasetsDraw: (chart) => drawCursor(chart, sheet),
  };
}

function drawGaps(chart: Chart, { model, palette }: Sheet): void {
  const x = xOf(chart);
  const { top, bottom } = chart.chartArea;
  const context = chart.ctx;
  for (const { fromMin, toMin } of model.gaps) {
    const left = Math.max(x.left, x.getPixelForValue(fromMin));
    const right = Math.min(x.right, Math.max(left + 2, x.getPixelForValue(toMin)));
    if (right <= x.left || left >= x.right) continue;
    context.save();
    context.beginPath();
    context.rect(left, top, right - left, bottom - top);
    context.clip();
    context.fillStyle = palette.paper;
    context.fillRect(left, top, right - left, bottom - top);
    context.strokeStyle = palette.quiet;
    context.globalAlpha = 0.5;
    context.beginPath();
    for (let at = left - (bottom - top); at < right; at += 7) {
      context.moveTo(at, bottom);
      context.lineTo(at + (bottom - top), top);
    }
    context.stroke();
    context.restore();
  }
}

function drawCursor(chart: Chart, { model, palette, heights }: Sheet): void {
  if (model.cursorMin === undefined) return;
  const at = Math.round(xOf(chart).getPixelForValue(model.cursorMin)) + 0.5;
  const context = chart.ctx;
  context.save();
  context.strokeStyle = palette.ink;
  context.lineWidth = 1;
  context.beginPath();
  context.moveTo(at, chart.chartArea.top);
  context.lineTo(at, chart.chartArea.bottom + heights.total);
  context.stroke();
  context.restore();
}

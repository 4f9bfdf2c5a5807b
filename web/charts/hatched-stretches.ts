/**
 * Gaps hatched over all panels, so that missing data are seen to be missing; stretches left out hatched over the panel
 * of their probe; the stretch being chosen; and the cursor's hairline.
 */
import type { Chart } from 'chart.js';
import type { Drawing, TimeChartPlugin } from './chart-plugin.ts';
import { panelOf, writeLabel, xOf } from './chart-plugin.ts';
import type { Stretch } from './time-chart-model.ts';

export function hatchedStretches(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'overlays',
    afterDatasetsDraw: (chart) => {
      drawLeftOut(chart, drawing);
      drawChosen(chart, drawing);
      drawCursor(chart, drawing);
    },
  };
}

export function paintGaps(context: CanvasRenderingContext2D, chart: Chart, drawing: Drawing): void {
  for (const gap of drawing.model.gaps) drawGap(context, chart, drawing, gap);
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where a stretch of time lies between two heights; undefined when it is out of sight. Never too thin to be seen. */
function boxOf(chart: Chart, { fromMin, toMin }: Stretch, top: number, bottom: number): Box | undefined {
  const x = xOf(chart);
  const left = Math.max(x.left, x.getPixelForValue(fromMin));
  const right = Math.min(x.right, Math.max(left + 2, x.getPixelForValue(toMin)));
  return right <= x.left || left >= x.right ? undefined : { left, right, top, bottom };
}

/** Slanting lines across a box; `leaning` tells missing data from data left out without a colour. */
function hatch(context: CanvasRenderingContext2D, box: Box, ink: string, leaning: 'right' | 'left'): void {
  const { left, right, top, bottom } = box;
  const height = bottom - top;
  context.save();
  context.beginPath();
  context.rect(left, top, right - left, height);
  context.clip();
  context.strokeStyle = ink;
  context.globalAlpha = 0.5;
  context.beginPath();
  for (let at = left - height; at < right; at += 7) {
    context.moveTo(at, leaning === 'right' ? bottom : top);
    context.lineTo(at + height, leaning === 'right' ? top : bottom);
  }
  context.stroke();
  context.restore();
}

function drawGap(context: CanvasRenderingContext2D, chart: Chart, { palette }: Drawing, gap: Stretch): void {
  const box = boxOf(chart, gap, chart.chartArea.top, chart.chartArea.bottom);
  if (!box) return;
  context.save();
  context.fillStyle = palette.background;
  context.fillRect(box.left, box.top, box.right - box.left, box.bottom - box.top);
  context.restore();
  hatch(context, box, palette.quiet, 'right');
}

/** A hatched foot under the curve, as high as a line of words, with the name of the probe where it fits. */
function drawLeftOut(chart: Chart, { model, palette }: Drawing): void {
  const rowPx = 15;
  const rows = new Map<string, number>();
  for (const { label, panel, leftOut = [] } of model.curves) {
    const scale = panelOf(chart, panel);
    if (!scale || leftOut.length === 0) continue;
    const row = rows.get(panel) ?? 0;
    rows.set(panel, row + 1);
    const bottom = scale.bottom - row * rowPx;
    for (const stretch of leftOut) {
      const box = boxOf(chart, stretch, bottom - rowPx, bottom);
      if (!box) continue;
      hatch(chart.ctx, box, palette.ink, 'left');
      const width = chart.ctx.measureText(label).width;
      if (width < box.right - box.left)
        writeLabel(chart.ctx, label, box.left + 3, bottom - 3, { ink: palette.ink, background: palette.background });
    }
  }
}

function drawChosen(chart: Chart, { model, palette }: Drawing): void {
  if (!model.chosen) return;
  const box = boxOf(chart, model.chosen, chart.chartArea.top, chart.chartArea.bottom);
  if (!box) return;
  const context = chart.ctx;
  context.save();
  context.fillStyle = palette.ink;
  context.globalAlpha = 0.12;
  context.fillRect(box.left, box.top, box.right - box.left, box.bottom - box.top);
  context.globalAlpha = 1;
  context.strokeStyle = palette.ink;
  context.lineWidth = 1.5;
  context.beginPath();
  for (const edge of [box.left, box.right]) {
    context.moveTo(edge, box.top);
    context.lineTo(edge, box.bottom);
  }
  context.stroke();
  context.restore();
}

function drawCursor(chart: Chart, { model, palette, heights }: Drawing): void {
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

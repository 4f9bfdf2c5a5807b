/**
 * What stays as it is from scan to scan, under the curves: gaps, squares, figures of the axes, the tracks of marks. Painted once
 * on a canvas of its own, and copied from there.
 */
import { paintAxisLabels } from './axis-labels.ts';
import type { Drawing, TimeChartPlugin } from './chart-plugin.ts';
import { paintGrid } from './grid.ts';
import { paintGaps } from './hatched-stretches.ts';
import { paintMarkTracks } from './marks-track.ts';

export function stillLayer(drawing: Drawing): TimeChartPlugin {
  const layer = document.createElement('canvas');
  let painted: string | undefined;
  return {
    id: 'stillLayer',
    // Chart.js has laid out anew, or there are other inks.
    afterUpdate() {
      painted = undefined;
    },
    beforeDatasetsDraw(chart) {
      const { gaps, tracks, trackUnit, momentLines } = drawing.model;
      const shown = JSON.stringify([gaps, tracks, trackUnit, momentLines]);
      if (painted !== shown) {
        // Clears it too.
        [layer.width, layer.height] = [chart.canvas.width, chart.canvas.height];
        const context = layer.getContext('2d')!;
        context.setTransform(chart.ctx.getTransform());
        for (const paint of [paintGaps, paintGrid, paintAxisLabels, paintMarkTracks]) paint(context, chart, drawing);
        painted = shown;
      }
      if (layer.width === 0 || layer.height === 0) return;
      chart.ctx.save();
      chart.ctx.resetTransform();
      chart.ctx.drawImage(layer, 0, 0);
      chart.ctx.restore();
    },
  };
}

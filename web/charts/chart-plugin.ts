/** What every plugin of the time chart draws from: the model as it is now, the inks, and where each panel lies. */
import type { Chart, ChartMeta, Plugin, PointElement, Scale } from 'chart.js';
import type { Palette } from '../../shared/plot/inks.ts';
import type { Panel, TimeChartHeights, TimeChartModel } from './time-chart-model.ts';

export interface Drawing {
  model: TimeChartModel;
  palette: Palette;
  heights: TimeChartHeights;
}

export type TimeChartPlugin = Plugin<'line'>;

export const fontFamily = '"Atkinson Hyperlegible Next", sans-serif';

export function xOf(chart: Chart): Scale {
  return chart.scales.x as Scale;
}

export function panelOf(chart: Chart, panel: Panel): Scale | undefined {
  return chart.scales[panel];
}

/** The points of a dataset as Chart.js places them, in pixels; `skip` where there is no reading. */
export function metaPoints({ data }: Pick<ChartMeta, 'data'>): readonly PointElement[] {
  return data as PointElement[];
}

/** Draw text with a halo of paper behind it, so that it stays readable across curves and squares. */
export function writeLabel(
  context: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  {
    ink,
    background: scale,
    align = 'left',
    size = 12,
  }: { ink: string; background: string; align?: CanvasTextAlign; size?: number },
): void {
  context.save();
  context.font = `${size}px ${fontFamily}`;
  context.textAlign = align;
  context.lineJoin = 'round';
  context.lineWidth = 4;
  context.strokeStyle = scale;
  context.strokeText(text, x, y);
  context.fillStyle = ink;
  context.fillText(text, x, y);
  context.restore();
}

/**
 * The time chart: water on squares, bands for hot probes and heating rate, a track of marks, one time axis.
 * One chart a canvas, kept for its whole life; new data replace the old arrays and are drawn without animation.
 */
import { Chart, type ChartDataset, LinearScale, LineController, LineElement, PointElement } from 'chart.js';
import { type Palette, paperInks } from '../../shared/plot/inks.ts';
import { axisLabels } from './axis-labels.ts';
import { bandHeads } from './band-heads.ts';
import { chartLabels } from './chart-labels.ts';
import { type Drawing, xOf } from './chart-plugin.ts';
import { grid } from './grid.ts';
import { hatchedStretches } from './hatched-stretches.ts';
import { markPlaces, marksTrack, trackBaseline } from './marks-track.ts';
import { readPalette } from './palette.ts';
import { pointsInSight } from './points-in-sight.ts';
import { prediction } from './prediction.ts';
import {
  gutterPx,
  type Panel,
  type TimeChartCurve,
  type TimeChartHeights,
  type TimeChartMark,
  type TimeChartModel,
} from './time-chart-model.ts';

Chart.register(LineController, LineElement, PointElement, LinearScale);

export interface TimeChartChart {
  update(model: TimeChartModel, heights: TimeChartHeights): void;
  /** Read the inks again after a change of theme. */
  repaint(): void;
  minuteAt(pixelX: number): number;
  markNear(pixelX: number, pixelY: number): TimeChartMark | undefined;
  destroy(): void;
}

type Point = { x: number; y: number };

/** A line this much off is the same to the eye, on a printer with three dots a pixel too. */
const unseenPx = 0.1;

/** Put a time chart on a canvas whose parent has the height of `heights.total`. */
export function mountTimeChart(
  canvas: HTMLCanvasElement,
  model: TimeChartModel,
  heights: TimeChartHeights,
): TimeChartChart {
  const drawing: Drawing = { model, heights, palette: readPalette(canvas) };
  const chart = new Chart<'line', Point[]>(canvas, {
    type: 'line',
    data: { datasets: datasetsOf(drawing) },
    options: {
      animation: false,
      parsing: false,
      normalized: true,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      spanGaps: false,
      datasets: { line: { pointRadius: 0, pointHitRadius: 0 } },
      ...layoutOf(drawing),
    },
    plugins: [
      hatchedStretches(drawing),
      grid(drawing),
      axisLabels(drawing),
      prediction(drawing),
      marksTrack(drawing),
      bandHeads(drawing),
      chartLabels(drawing),
    ],
  });
  const redraw = () => {
    chart.data.datasets = renewed(chart.data.datasets, datasetsOf(drawing));
    Object.assign(chart.options, layoutOf(drawing));
    // Taking a new height draws too: once is enough.
    const { height } = chart;
    chart.resize();
    if (chart.height === height) chart.update('none');
  };
  const drawFor = (ratio: number, palette: Palette) => {
    chart.options.devicePixelRatio = ratio;
    drawing.palette = palette;
    chart.resize();
    redraw();
  };
  // A canvas prints as pixels: give the printer more of them, and the inks of white paper.
  const beforePrint = () => drawFor(3, paperInks);
  const afterPrint = () => drawFor(devicePixelRatio, readPalette(canvas));
  addEventListener('beforeprint', beforePrint);
  addEventListener('afterprint', afterPrint);
  void document.fonts.ready.then(() => chart.canvas && redraw());
  return {
    update(next, nextHeights) {
      if (onlyCursorMoved(drawing, next, nextHeights)) {
        drawing.model = next;
        chart.draw();
        return;
      }
      drawing.model = next;
      drawing.heights = nextHeights;
      redraw();
    },
    repaint() {
      drawing.palette = readPalette(canvas);
      redraw();
    },
    minuteAt: (pixelX) => xOf(chart).getValueForPixel(pixelX) ?? 0,
    markNear(pixelX, pixelY) {
      const index = drawing.model.tracks.findIndex((_, at) => pixelY <= trackBaseline(chart, drawing, at) + 16);
      if (pixelY < chart.chartArea.bottom + drawing.heights.axis - 4) return undefined;
      const track = drawing.model.tracks[index];
      return track?.marks
        .map((mark, place) => ({ mark, far: Math.abs((markPlaces(chart, track)[place] ?? 0) - pixelX) }))
        .filter(({ far }) => far <= 22)
        .sort((a, b) => a.far - b.far)[0]?.mark;
    },
    destroy() {
      removeEventListener('beforeprint', beforePrint);
      removeEventListener('afterprint', afterPrint);
      chart.destroy();
    },
  };
}

/** Moving the cursor over twenty burns must not build their curves anew. */
function onlyCursorMoved(drawing: Drawing, next: TimeChartModel, heights: TimeChartHeights): boolean {
  const keys = new Set([...Object.keys(drawing.model), ...Object.keys(next)] as (keyof TimeChartModel)[]);
  keys.delete('cursorMin');
  return heights.total === drawing.heights.total && [...keys].every((key) => drawing.model[key] === next[key]);
}

/** Chart.js makes a controller and an element for each point of a dataset that it does not know: known ones take the new data. */
function renewed(
  known: readonly ChartDataset<'line', Point[]>[],
  next: readonly ChartDataset<'line', Point[]>[],
): ChartDataset<'line', Point[]>[] {
  return next.map((dataset, index) => {
    const before = known[index];
    return before && before.label === dataset.label ? Object.assign(before, dataset) : dataset;
  });
}

function datasetsOf({ model, palette, heights }: Drawing): ChartDataset<'line', Point[]>[] {
  return model.curves.flatMap((curve) => {
    const { id, panel, style, x, leftOut = [] } = curve;
    const { low, high } = model[panel] ?? { low: 0, high: 0 };
    const slack = curve.isDotted ? 0 : (unseenPx * (high - low)) / heights[panel];
    const drawn = (y: TimeChartCurve['y'], pale: boolean): ChartDataset<'line', Point[]> => ({
      label: id,
      yAxisID: panel,
      // Chart.js reads a null as a break in the line; its types do not say so for points given as objects.
      data: pointsInSight(x, y, slack) as Point[],
      borderColor: pale ? palette.line : palette[style.ink],
      borderDash: pale ? [] : [...style.dash],
      borderWidth: style.width,
      borderJoinStyle: 'round',
      ...(curve.isDotted && { pointRadius: 2.5, pointBackgroundColor: pale ? palette.line : palette[style.ink] }),
      clip: 0,
    });
    if (leftOut.length === 0) return [drawn(curve.y, false)];
    const isOut = (minute: number) => leftOut.some(({ fromMin, toMin }) => minute >= fromMin && minute <= toMin);
    const only = (out: boolean) => curve.y.map((value, index) => (isOut(x[index] ?? 0) === out ? value : null));
    return [drawn(only(true), true), drawn(only(false), false)];
  });
}

/** A band keeps rows free at its top for its words. */
function withHeadroom({ low, high }: { low: number; high: number }, height: number, head: number): number {
  return low + ((high - low) * height) / Math.max(height - head, 1);
}

function layoutOf({ model, heights }: Drawing) {
  const hidden = { grid: { display: false, drawTicks: false }, border: { display: false }, ticks: { display: false } };
  const panel = (name: Panel, range: { low: number; high: number } | undefined) =>
    range && {
      [name]: {
        type: 'linear' as const,
        // Without this Chart.js takes an axis by its first letter: "rate" would be a radius.
        axis: 'y' as const,
        min: range.low,
        max: name === 'plot' ? range.high : withHeadroom(range, heights[name], heights[`${name}Head`]),
        stack: 'strip',
        stackWeight: heights[name],
        ...hidden,
      },
    };
  return {
    // Room for the dots of readings would move the paper from under its marks.
    layout: {
      autoPadding: false,
      padding: { bottom: heights.axis + heights.track * model.tracks.length, left: gutterPx, right: 0, top: 0 },
    },
    scales: {
      x: { type: 'linear' as const, min: model.range.fromMin, max: model.range.toMin, ...hidden },
      // Chart.js stacks the first scale at the bottom.
      ...panel('rate', model.rate),
      ...panel('hot', model.hot),
      ...panel('plot', model.plot),
    },
  };
}

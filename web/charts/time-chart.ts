/**
 * The time chart: water on squares, bands for hot probes and heating rate, a track of marks, one time axis.
 * One chart a canvas, kept for its whole life; new data replace the old arrays and are drawn without animation.
 */
import { Chart, LinearScale, LineController, LineElement, PointElement } from 'chart.js';
import { type Palette, paperInks } from '../../shared/plot/inks.ts';
import { bandHeads } from './band-heads.ts';
import { chartLabels } from './chart-labels.ts';
import { type Drawing, xOf } from './chart-plugin.ts';
import { areExtended, curveDatasets, type LineChart } from './curve-datasets.ts';
import { hatchedStretches } from './hatched-stretches.ts';
import { markPlaces, trackBaseline } from './marks-track.ts';
import { readPalette } from './palette.ts';
import { prediction } from './prediction.ts';
import { stillLayer } from './still-layer.ts';
import {
  gutterPx,
  type Panel,
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

/** Put a time chart on a canvas whose parent has the height of `heights.total`. */
export function mountTimeChart(
  canvas: HTMLCanvasElement,
  model: TimeChartModel,
  heights: TimeChartHeights,
): TimeChartChart {
  const drawing: Drawing = { model, heights, palette: readPalette(canvas) };
  const curves = curveDatasets();
  const chart: LineChart = new Chart(canvas, {
    type: 'line',
    data: { datasets: curves.of(drawing, false) },
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
      curves.joinedDashes,
      stillLayer(drawing),
      hatchedStretches(drawing),
      prediction(drawing),
      bandHeads(drawing),
      chartLabels(drawing),
    ],
  });
  const redraw = (areGrowing = false) => {
    chart.data.datasets = renewed(chart.data.datasets, curves.of(drawing, areGrowing));
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
      const hasGrown = hasSameLayout(drawing, next, nextHeights) && areExtended(drawing.model.curves, next.curves);
      drawing.model = next;
      drawing.heights = nextHeights;
      if (hasGrown && curves.grow(chart, drawing)) chart.draw();
      else redraw(hasGrown);
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

/** Where the scales and the panels stay what they are, Chart.js need not lay them out. */
function hasSameLayout({ model, heights }: Drawing, next: TimeChartModel, nextHeights: TimeChartHeights): boolean {
  return (
    isSame(heights, nextHeights) &&
    isSame(model.range, next.range) &&
    (['plot', 'hot', 'rate'] as const).every((panel) => isSame(model[panel], next[panel]))
  );
}

function isSame<T extends object>(a: T | undefined, b: T | undefined): boolean {
  const keys = new Set([...Object.keys(a ?? {}), ...Object.keys(b ?? {})] as (keyof T)[]);
  return [...keys].every((key) => a?.[key] === b?.[key]);
}

/** Chart.js makes a controller and an element for each point of a dataset that it does not know: known ones take the new data. */
function renewed(
  known: LineChart['data']['datasets'],
  next: LineChart['data']['datasets'],
): LineChart['data']['datasets'] {
  return next.map((dataset, index) => {
    const before = known[index];
    return before && before.label === dataset.label ? Object.assign(before, dataset) : dataset;
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

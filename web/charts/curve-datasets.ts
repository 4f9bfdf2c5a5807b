/**
 * The datasets of the curves. A curve that grows has a second one, of its newest points: Chart.js then computes and draws the
 * few points that a scan adds, and strokes the rest from the path it has already.
 */
import type { Chart, ChartDataset } from 'chart.js';
import { type Drawing, metaPoints, type TimeChartPlugin } from './chart-plugin.ts';
import { pointsInSight } from './points-in-sight.ts';
import type { TimeChartCurve } from './time-chart-model.ts';

export type LineChart = Chart<'line', DrawnPoint[]>;
type DrawnPoint = { x: number; y: number };
type Dataset = ChartDataset<'line', DrawnPoint[]>;

/** A line this much off is the same to the eye, on a printer with three dots a pixel too. */
const unseenPx = 0.1;
/** Beyond this many readings a growing dataset is added to the finished one. */
const mostGrowing = 120;

export interface CurveDatasets {
  /** Datasets of all curves as the drawing has them; `areGrowing` says that more points will come. */
  of(drawing: Drawing, areGrowing: boolean): Dataset[];
  /** Lets the dashes of growing datasets go on where those of the finished ones end. */
  readonly joinedDashes: TimeChartPlugin;
  /** Give the points that came since the finished datasets were made to the chart. False when all datasets are to be made anew. */
  grow(chart: LineChart, drawing: Drawing): boolean;
}

export function curveDatasets(): CurveDatasets {
  /** Curves of the finished datasets, whose last points the growing ones begin with; empty when nothing grows. */
  let finished: readonly TimeChartCurve[] = [];
  return {
    of(drawing, areGrowing) {
      const { curves } = drawing.model;
      finished = areGrowing ? curves : [];
      return curves.flatMap((curve) => [
        ...finishedDatasets(curve, drawing),
        ...(areGrowing ? [growingDataset(curve, curve.x.length - 1, drawing)] : []),
      ]);
    },
    joinedDashes: {
      id: 'joinedDashes',
      afterDatasetsUpdate(chart) {
        for (const [index, { style }] of finished.entries()) {
          if (style.dash.length === 0) continue;
          chart.data.datasets[2 * index + 1]!.borderDashOffset = lengthToEndPx(chart, 2 * index);
          const { controller } = chart.getDatasetMeta(2 * index + 1);
          controller.configure();
          controller.update('none');
        }
      },
    },
    grow(chart, drawing) {
      const { curves } = drawing.model;
      if (finished.length === 0 || curves.some(({ x }, index) => x.length - finished[index]!.x.length > mostGrowing))
        return false;
      for (const [index, curve] of curves.entries()) {
        const before = finished[index]!.x.length;
        if (curve.x.length === before) continue;
        chart.data.datasets[2 * index + 1]!.data = pointsOf(curve, curve.y, drawing, before - 1);
        const { controller } = chart.getDatasetMeta(2 * index + 1);
        controller.buildOrUpdateElements(false);
        controller.update('none');
      }
      return true;
    },
  };
}

/** Whether these are the same curves, drawn alike, with no more than new points at their ends. */
export function areExtended(before: readonly TimeChartCurve[], now: readonly TimeChartCurve[]): boolean {
  return before.length === now.length && before.every((curve, index) => isExtended(curve, now[index]!));
}

function isExtended(before: TimeChartCurve, now: TimeChartCurve): boolean {
  return (
    before.id === now.id &&
    before.panel === now.panel &&
    before.style === now.style &&
    before.isDotted === now.isDotted &&
    before.leftOut === undefined &&
    now.leftOut === undefined &&
    beginsWith(now.x, before.x) &&
    beginsWith(now.y, before.y)
  );
}

function beginsWith(values: readonly unknown[], start: readonly unknown[]): boolean {
  if (values.length < start.length) return false;
  for (let index = 0; index < start.length; index++) if (values[index] !== start[index]) return false;
  return true;
}

function finishedDatasets(curve: TimeChartCurve, drawing: Drawing): Dataset[] {
  const { x, y, leftOut = [] } = curve;
  if (leftOut.length === 0) return [datasetOf(curve, y, drawing)];
  const isOut = (minute: number) => leftOut.some(({ fromMin, toMin }) => minute >= fromMin && minute <= toMin);
  const only = (out: boolean) => y.map((value, index) => (isOut(x[index] ?? 0) === out ? value : null));
  return [datasetOf(curve, only(true), drawing, { isPale: true }), datasetOf(curve, only(false), drawing)];
}

function growingDataset(curve: TimeChartCurve, from: number, drawing: Drawing): Dataset {
  return { ...datasetOf(curve, curve.y, drawing, { from }), label: `${curve.id} grows` };
}

function datasetOf(
  curve: TimeChartCurve,
  y: TimeChartCurve['y'],
  drawing: Drawing,
  { isPale = false, from = 0 }: { isPale?: boolean; from?: number } = {},
): Dataset {
  const { id, panel, style } = curve;
  const ink = drawing.palette[isPale ? 'line' : style.ink];
  return {
    label: id,
    yAxisID: panel,
    data: pointsOf(curve, y, drawing, from),
    borderColor: ink,
    borderDash: isPale ? [] : [...style.dash],
    borderWidth: style.width,
    borderJoinStyle: 'round',
    ...(curve.isDotted && { pointRadius: 2.5, pointBackgroundColor: ink }),
    clip: 0,
  };
}

function pointsOf(
  { x, panel, isDotted }: TimeChartCurve,
  y: TimeChartCurve['y'],
  { model, heights }: Drawing,
  from: number,
): DrawnPoint[] {
  const { low, high } = model[panel] ?? { low: 0, high: 0 };
  const slack = isDotted ? 0 : (unseenPx * (high - low)) / heights[panel];
  // Chart.js reads a null as a break in the line; its types do not say so for points given as objects.
  return pointsInSight(from > 0 ? x.slice(from) : x, from > 0 ? y.slice(from) : y, slack) as DrawnPoint[];
}

/** Length of the last unbroken stretch of a line that has been drawn. */
function lengthToEndPx(chart: Chart<'line'>, index: number): number {
  const points = metaPoints(chart.getDatasetMeta(index));
  let length = 0;
  for (let end = points.length - 1; end > 0; end--) {
    const [a, b] = [points[end - 1]!, points[end]!];
    if (a.skip || b.skip) break;
    length += Math.hypot(b.x - a.x, b.y - a.y);
  }
  return length;
}

/** Names of the curves at their ends, and of the bands they are drawn in. */
import type { Chart } from 'chart.js';
import { type Drawing, panelOf, type TimeChartPlugin, writeLabel, xOf } from './chart-plugin.ts';
import { spread } from './label-spacing.ts';

export function curveLabels(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'curveLabels',
    afterDatasetsDraw(chart) {
      writeBandLabels(chart, drawing);
      writeNotes(chart, drawing);
    },
  };
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

/** Names of what is drawn beside the water, at the end of each curve. */
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

/** What stands above a band: what it shows, and the newest figure of each curve in it, in rows of their own. */
import type { Chart, Scale } from 'chart.js';
import { type BandName, type BandNote, bandNotes, bandRowPx, bandSamplePx } from './band-head-rows.ts';
import { type Drawing, panelOf, type TimeChartPlugin, writeLabel, xOf } from './chart-plugin.ts';
import { paintShapes } from './paint-shapes.ts';

const firstBaselinePx = 12;

export function bandHeads(drawing: Drawing): TimeChartPlugin {
  return {
    id: 'bandHeads',
    afterDatasetsDraw(chart) {
      for (const band of ['hot', 'rate'] as const) writeHead(chart, drawing, band);
    },
  };
}

function writeHead(chart: Chart, drawing: Drawing, band: BandName): void {
  const { model, palette } = drawing;
  const scale = panelOf(chart, band);
  const range = model[band];
  if (!scale || !range) return;
  const x = xOf(chart);
  writeLabel(chart.ctx, range.label, x.left + 3, scale.top + firstBaselinePx, {
    ink: palette.quiet,
    background: palette.background,
  });
  for (const note of bandNotes(model, band, x.width)) writeNote(chart, drawing, note, scale);
}

function writeNote(chart: Chart, { palette }: Drawing, note: BandNote, { top }: Scale): void {
  const { style, isOld } = note.curve;
  const right = xOf(chart).right - 2 - note.fromRight;
  const y = top + firstBaselinePx + note.row * bandRowPx;
  writeLabel(chart.ctx, note.note, right, y, {
    ink: palette[isOld ? 'quiet' : style.ink],
    background: palette.background,
    align: 'right',
  });
  const left = right - note.width + 2;
  const ends = [left, left + bandSamplePx].map((at) => [at, y - 4] as const);
  paintShapes(chart.ctx, [{ kind: 'line', points: ends, style }], palette);
}

/** How the words above a band are set in rows. Pure: the height of the chart follows from it before there is a canvas. */
import { rowsFor, textWidth } from '../../shared/plot/label-places.ts';
import type { TimeChartCurve, TimeChartModel } from './time-chart-model.ts';

export const bandRowPx = 15;
export const bandSamplePx = 20;
const labelPx = 12;

export type BandName = 'hot' | 'rate';
type Banded = Pick<TimeChartModel, 'curves' | BandName>;

export interface BandNote {
  readonly note: string;
  readonly curve: TimeChartCurve;
  readonly width: number;
  readonly row: number;
  readonly fromRight: number;
}

/** The newest figure of each curve of a band, set from the right of paper so wide. */
export function bandNotes(model: Banded, band: BandName, paperPx: number): BandNote[] {
  const noted = model.curves.flatMap((curve) =>
    curve.panel === band && curve.note !== undefined ? [{ curve, note: curve.note }] : [],
  );
  const widths = noted.map(({ note }) => textWidth(note, labelPx) + bandSamplePx + 5);
  const taken = textWidth(model[band]?.label ?? '', labelPx);
  const places = rowsFor(widths, paperPx, { gap: 12, taken });
  return noted.map((each, index) => ({ ...each, width: widths[index]!, ...places[index]! }));
}

/** Height that a band needs above its curves. */
export function bandHeadPx(model: Banded, band: BandName, paperPx: number): number {
  return bandRowPx * (1 + Math.max(0, ...bandNotes(model, band, paperPx).map(({ row }) => row)));
}

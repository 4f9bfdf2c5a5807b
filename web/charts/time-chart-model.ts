/** What a time chart shows: everything in minutes from its zero (the lighting) and in the units on screen. */
import type { MarkKind } from '../../shared/contract/marks.ts';
import type { Dimension } from '../../shared/language/display-units.ts';
import type { CurveStyle } from './palette.ts';

export type Panel = 'plot' | 'hot' | 'rate';

export interface TimeChartCurve {
  readonly id: string;
  readonly label: string;
  readonly panel: Panel;
  /** What its figures are, where it is not what its panel usually shows. */
  readonly dimension?: Dimension;
  readonly style: CurveStyle;
  readonly x: readonly number[];
  /** null is a gap: nothing is drawn across it. */
  readonly y: readonly (number | null)[];
  /** Written in the band beside the curve, e.g. "flue 662 °C". */
  readonly note?: string;
  /** The note is not of now. */
  readonly isOld?: boolean;
  /** Every point is one reading of a person, and is seen as such. */
  readonly isDotted?: boolean;
  /** Stretches the person left out of the reckoning: drawn pale. */
  readonly leftOut?: readonly Stretch[];
}

/** What the time chart has no panel for, as a pressure or a mass: not drawn, but read by the cursor and in the table. */
export interface TimeChartReading extends Pick<TimeChartCurve, 'id' | 'label' | 'x' | 'y' | 'leftOut'> {
  readonly unit: string;
  readonly decimals: number;
}

export interface Stretch {
  readonly fromMin: number;
  readonly toMin: number;
}

export interface TimeChartMark {
  readonly id: string;
  readonly atMin: number;
  readonly kind: MarkKind;
  /** Height of the bar of a feed, in kg whatever the units on screen. */
  readonly massKg?: number;
  readonly text?: string;
  /** Not confirmed by the service yet: drawn hollow. */
  readonly waiting?: boolean;
}

export interface TimeChartTrack {
  readonly label?: string;
  readonly style?: CurveStyle;
  readonly marks: readonly TimeChartMark[];
}

export interface TimeChartFan {
  readonly fromMin: number;
  readonly from: number;
  readonly to: number;
  /** Earliest, likeliest and latest arrival at `to`. */
  readonly arrivals: readonly [number, number, number];
}

export interface TimeChartModel {
  readonly curves: readonly TimeChartCurve[];
  readonly tracks: readonly TimeChartTrack[];
  readonly readings?: readonly TimeChartReading[];
  readonly range: Stretch;
  /** Water panel: lowest and highest value and the height of one small square, in the units on screen. */
  readonly plot: { readonly low: number; readonly high: number; readonly square: number; readonly labelEvery: number };
  readonly hot?: { readonly low: number; readonly high: number; readonly label: string };
  readonly rate?: { readonly low: number; readonly high: number; readonly label: string };
  readonly level?: { readonly value: number; readonly label: string };
  readonly floor?: { readonly value: number; readonly label: string };
  readonly fan?: TimeChartFan;
  readonly momentLines: readonly { readonly atMin: number; readonly label: string }[];
  readonly gaps: readonly Stretch[];
  /** A stretch being chosen. */
  readonly chosen?: Stretch;
  readonly now?: { readonly atMin: number; readonly value: number; readonly isOld?: boolean };
  readonly cursorMin?: number;
  readonly writeFigure: (value: number) => string;
  readonly trackUnit: string;
  /** What minutes are counted from, for the table; from lighting when left out. */
  readonly minutesLabel?: string;
}

/** Heights in CSS pixels. */
export interface TimeChartHeights {
  readonly plot: number;
  readonly hot: number;
  readonly rate: number;
  readonly axis: number;
  readonly track: number;
  readonly total: number;
}

/** Minutes in one small square. */
export const squareMin = 5;

/**
 * Heights for a width. The paper's squares are true squares where that gives a sensible height, so that on every such
 * chart one kelvin a minute runs along the diagonal; otherwise they are stretched.
 */
export function timeChartHeights(
  width: number,
  model: Pick<TimeChartModel, 'range' | 'plot' | 'hot' | 'rate' | 'tracks'>,
  { lowest, highest }: { lowest: number; highest: number },
): TimeChartHeights {
  const columns = (model.range.toMin - model.range.fromMin) / squareMin;
  const rows = (model.plot.high - model.plot.low) / model.plot.square;
  const scale = Math.round(Math.min(highest, Math.max(lowest, (width / columns) * rows)));
  const hot = model.hot ? Math.round(Math.max(58, scale * 0.22)) : 0;
  const rate = model.rate ? Math.round(Math.max(46, scale * 0.16)) : 0;
  const axis = 22;
  const track = 42;
  return { plot: scale, hot, rate, axis, track, total: scale + hot + rate + axis + track * model.tracks.length };
}

/** Minutes between the numbers on the time axis: as many as fit at about 60 px each, on round values. */
export function minuteStep(spanMin: number, width: number): number {
  const wanted = (spanMin * 56) / Math.max(width, 1);
  return [5, 10, 15, 30, 60, 120, 240].find((step) => step >= wanted) ?? 480;
}

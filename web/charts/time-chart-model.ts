/** What a time chart shows: everything in minutes from its zero (the lighting) and in the units on screen. */
import type { MarkKind } from '../../shared/contract/marks.ts';
import type { Dimension } from '../../shared/language/display-units.ts';
import type { CurveStyle } from '../../shared/plot/curve-styles.ts';

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

/** A temperature that matters, as a line across the paper with its name. */
export interface TimeChartLevel {
  readonly kind: 'boil' | 'target' | 'floor';
  readonly value: number;
  readonly label: string;
}

export const levelStyles: Readonly<Record<TimeChartLevel['kind'], CurveStyle>> = {
  boil: { ink: 'ink', dash: [1.5, 2.5], width: 1 },
  target: { ink: 'ink', dash: [9, 4], width: 1 },
  floor: { ink: 'ink', dash: [4, 3], width: 1 },
};

export interface TimeChartModel {
  readonly curves: readonly TimeChartCurve[];
  readonly tracks: readonly TimeChartTrack[];
  readonly readings?: readonly TimeChartReading[];
  readonly range: Stretch;
  /** Water panel: lowest and highest value and the height of one small square, in the units on screen. */
  readonly plot: { readonly low: number; readonly high: number; readonly square: number; readonly labelEvery: number };
  readonly hot?: { readonly low: number; readonly high: number; readonly label: string };
  readonly rate?: { readonly low: number; readonly high: number; readonly label: string };
  readonly levels?: readonly TimeChartLevel[];
  readonly fan?: TimeChartFan;
  /** A shaded stretch of the water paper, by its corners in minutes and the units on screen. */
  readonly area?: readonly (readonly [minute: number, value: number])[];
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
  /** Of the bands, what is kept free of curves for their words. */
  readonly hotHead: number;
  readonly rateHead: number;
  readonly axis: number;
  readonly track: number;
  readonly total: number;
}

/** At the left of the paper, for the figures of its axis: on the paper they would lie on curves. */
export const gutterPx = 28;

/** Minutes in one small square. */
export const squareMin = 5;

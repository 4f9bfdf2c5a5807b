import { stretchesOf } from '../../shared/plot/curve-paths.ts';
import type { CurveStyle } from '../../shared/plot/curve-styles.ts';
import type { Ink } from '../../shared/plot/inks.ts';
import { rowsFor, textWidth } from '../../shared/plot/label-places.ts';
import { linearScale, type Scale } from '../../shared/plot/scale.ts';
import type { Point, Shape } from '../../shared/plot/shapes.ts';
import { minuteStep, multiplesIn } from '../../shared/plot/ticks.ts';

export interface Band {
  readonly topPt: number;
  readonly heightPt: number;
  readonly low: number;
  readonly high: number;
}

export interface TimeCurve {
  readonly t: readonly number[];
  readonly v: readonly (number | null)[];
}

export interface KeyEntry {
  readonly name: string;
  readonly style: CurveStyle;
}

type WriteNumber = (value: number, decimals: number) => string;

export const leftPt = 34;
export const labelPt = 7.5;
const rightPt = 4;
const captionPt = 8;
const keyRowPt = 10;
const samplePt = 22;

/** Bands of grid squares above each other on one time axis, with curves drawn into them. */
export class PlotArea {
  readonly shapes: Shape[] = [];
  readonly x: Scale;
  readonly #widthPt: number;
  readonly #endS: number;
  readonly #number: WriteNumber;

  /** @param endS right end of the time axis, from its zero */
  constructor(widthPt: number, endS: number, number: WriteNumber) {
    this.#widthPt = widthPt;
    this.#endS = Math.max(60, endS);
    this.#number = number;
    this.x = linearScale([0, this.#endS], [leftPt, widthPt - rightPt]);
  }

  line(points: readonly Point[], style: CurveStyle): void {
    this.shapes.push({ kind: 'line', points, style });
  }

  #straight(from: Point, to: Point, style: CurveStyle): void {
    this.line([from, to], style);
  }

  text(at: Point, text: string, ink: Ink, anchor: 'start' | 'middle' | 'end', size = labelPt): void {
    this.shapes.push({ kind: 'text', at, text, size, ink, anchor });
  }

  /**
   * Squares of 5 min by `fineStep`; a heavier line and a number every `labelStep`, or a multiple of it where numbers
   * would touch.
   */
  band(band: Band, fineStep: number, labelStep: number): void {
    const fine: CurveStyle = { ink: 'square', dash: [], width: 0.4 };
    const strong: CurveStyle = { ink: 'line', dash: [], width: 0.6 };
    const up = upScale(band);
    const figureStep = labelStep * Math.ceil((labelPt + 1) / (up(0) - up(labelStep)));
    for (const timeS of multiplesIn(0, this.#endS, 300))
      this.#straight([this.x(timeS), band.topPt], [this.x(timeS), band.topPt + band.heightPt], fine);
    for (const value of multiplesIn(band.low, band.high, fineStep)) {
      const isLabelled = value % figureStep === 0;
      this.#straight([leftPt, up(value)], [this.#widthPt - rightPt, up(value)], isLabelled ? strong : fine);
      if (isLabelled) this.text([leftPt - 4, up(value) + 2.5], this.#number(value, 0), 'quiet', 'end');
    }
  }

  /**
   * The title of a band and the key of its curves, above it and so never over a curve.
   * @returns where the band itself may begin
   */
  caption(topPt: number, text: string, ink: Ink, key: readonly KeyEntry[] = []): number {
    const widths = key.map(({ name }) => textWidth(name, labelPt) + samplePt + 4);
    const room = this.#widthPt - leftPt - rightPt;
    const placed = rowsFor(widths, room, { gap: 10, taken: textWidth(text, captionPt) });
    const basePt = topPt + captionPt + 2;
    this.text([leftPt, basePt], text, ink, 'start', captionPt);
    for (const [index, { name, style }] of key.entries()) {
      const { row, fromRight } = placed[index]!;
      const [endPt, yPt] = [this.#widthPt - rightPt - fromRight, basePt + row * keyRowPt];
      this.text([endPt, yPt], name, style.ink, 'end');
      const fromPt = endPt - widths[index]!;
      this.#straight([fromPt, yPt - 2.5], [fromPt + samplePt, yPt - 2.5], style);
    }
    return basePt + Math.max(0, ...placed.map(({ row }) => row)) * keyRowPt + 4;
  }

  /**
   * One line per stretch between gaps: nothing is drawn where there is no reading.
   * @param zeroS time of the curve at which the axis begins
   */
  curve({ t, v }: TimeCurve, zeroS: number, band: Band, style: CurveStyle): void {
    const up = upScale(band);
    const within = (value: number) => Math.min(band.high, Math.max(band.low, value));
    const shown = v.map((value, index) => (t[index]! < zeroS ? null : value));
    const stretches = stretchesOf(
      t,
      shown,
      (timeS) => this.x(timeS - zeroS),
      (value) => up(within(value)),
    );
    for (const stretch of stretches) if (stretch.length > 1) this.line(stretch, style);
  }

  /**
   * Labels in minutes from zero on below `topPt`, and their unit in a row of its own. @returns where the next element
   * may begin
   */
  timeAxis(topPt: number, unit: string): number {
    const endMin = this.#endS / 60;
    const everyMin = minuteStep(endMin, this.#widthPt - leftPt - rightPt);
    for (const minute of multiplesIn(0, endMin, everyMin)) {
      const figure = this.#number(minute, 0);
      const isAtEnd = this.x(minute * 60) + textWidth(figure, labelPt) / 2 > this.#widthPt;
      const at: Point = [isAtEnd ? this.#widthPt : this.x(minute * 60), topPt + 10];
      this.text(at, figure, 'quiet', isAtEnd ? 'end' : 'middle');
    }
    this.text([leftPt, topPt + 19], unit, 'quiet', 'start');
    return topPt + 22;
  }
}

function upScale({ topPt, heightPt, low, high }: Band): Scale {
  return linearScale([low, high], [topPt + heightPt, topPt]);
}

/** Highest value of the curves, rounded up to a whole number of steps and at least `least`. */
export function highEnd(curves: readonly TimeCurve[], step: number, least: number): number {
  let high = least;
  for (const { v } of curves) for (const value of v) high = Math.max(high, value ?? least);
  return Math.ceil(high / step) * step;
}

import { ink, type Point, type Shape, type Stroke } from './drawing.ts';

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

type WriteNumber = (value: number, decimals: number) => string;

export const leftPt = 34;
export const labelPt = 7.5;
const rightPt = 4;

/** Bands of squares above each other on one time axis, with curves drawn into them. */
export class PlotArea {
  readonly shapes: Shape[] = [];
  readonly #widthPt: number;
  readonly #endS: number;
  readonly #number: WriteNumber;

  /** @param endS right end of the time axis, from its zero */
  constructor(widthPt: number, endS: number, number: WriteNumber) {
    this.#widthPt = widthPt;
    this.#endS = Math.max(60, endS);
    this.#number = number;
  }

  x(timeS: number): number {
    return leftPt + (timeS / this.#endS) * (this.#widthPt - leftPt - rightPt);
  }

  line(points: readonly Point[], stroke: Stroke): void {
    this.shapes.push({ kind: 'line', points, stroke });
  }

  text(at: Point, text: string, color: string, anchor: 'start' | 'middle' | 'end', sizePt = labelPt): void {
    this.shapes.push({ kind: 'text', at, text, sizePt, color, anchor });
  }

  /** Squares of 5 min by `fineStep`; a heavier line and a figure every `labelStep`; the caption stands above. */
  band(band: Band, fineStep: number, labelStep: number, caption: string, color: string): void {
    const fine: Stroke = { color: ink.paperLine, widthPt: 0.4 };
    for (let timeS = 0; timeS <= this.#endS; timeS += 300) {
      const from: Point = [this.x(timeS), band.topPt];
      this.line([from, [this.x(timeS), band.topPt + band.heightPt]], fine);
    }
    // The step may be a half; whole counts keep the labels free of rounding dust.
    for (let step = Math.ceil(band.low / fineStep); step * fineStep <= band.high; step++) {
      const value = step * fineStep;
      const yPt = yIn(band, value);
      const labelled = value % labelStep === 0;
      const from: Point = [leftPt, yPt];
      this.line([from, [this.x(this.#endS), yPt]], labelled ? { color: ink.rule, widthPt: 0.6 } : fine);
      if (labelled) this.text([leftPt - 4, yPt + 2.5], this.#number(value, 0), ink.quiet, 'end');
    }
    this.text([leftPt, band.topPt - 4], caption, color, 'start', 8);
  }

  /**
   * One line a stretch between gaps: nothing is drawn where nothing was read.
   * @param zeroS time of the curve at which the axis begins
   */
  curve(curve: TimeCurve, zeroS: number, band: Band, stroke: Stroke): void {
    let stretch: Point[] = [];
    const finish = () => {
      if (stretch.length > 1) this.line(stretch, stroke);
      stretch = [];
    };
    curve.t.forEach((timeS, index) => {
      const value = curve.v[index];
      if (value === null || value === undefined) finish();
      else if (timeS >= zeroS) {
        stretch.push([this.x(timeS - zeroS), yIn(band, Math.min(band.high, Math.max(band.low, value)))]);
      }
    });
    finish();
  }

  /** Figures in minutes below `topPt`. @returns where the next thing may begin */
  timeAxis(topPt: number, unit: string): number {
    const everyMin = this.#endS > 4 * 3600 ? 60 : this.#endS > 2 * 3600 ? 30 : 15;
    this.text([leftPt, topPt + 10], unit, ink.quiet, 'start');
    for (let minute = everyMin * (everyMin < 30 ? 2 : 1); minute * 60 <= this.#endS; minute += everyMin) {
      this.text([this.x(minute * 60), topPt + 10], this.#number(minute, 0), ink.quiet, 'middle');
    }
    return topPt + 14;
  }
}

function yIn(band: Band, value: number): number {
  return band.topPt + band.heightPt * (1 - (value - band.low) / (band.high - band.low));
}

/** Highest value of the curves, rounded up to a whole number of steps and at least `least`. */
export function highEnd(curves: readonly TimeCurve[], step: number, least: number): number {
  let high = least;
  for (const { v } of curves) for (const value of v) high = Math.max(high, value ?? least);
  return Math.ceil(high / step) * step;
}

import { stepUint32 } from './sequence-numbers.ts';

/** `unknown`: too few scans so far to decide. */
export type ClockVerdict = 'unknown' | 'right' | 'wrong';

/**
 * A stretch must last this long, on the board's scale and in real time, and contain this many scans, to give a verdict.
 */
export const LEAST_US = 8e6;
const LEAST_REAL_US = 1e6;
export const LEAST_SCANS = 5;
/** Outside these ratios a clock does not count milliseconds: resonators are accurate to 1 %. */
const LEAST_RATIO = 0.5;
const MOST_RATIO = 2;
/**
 * A clock that was right is classified as wrong after this many stretches in a row: one stretch may include a stall of
 * the board.
 */
const STRETCHES_TO_DOUBT = 2;
/**
 * Live scans further apart than this (in real time), and than usual, begin a new stretch: the cause of the pause is
 * unknown.
 */
const PAUSE_REAL_US = 2e6;
const PAUSE_SPACINGS = 3;

/** @param ratio board milliseconds per millisecond that passed */
export function countsMilliseconds(ratio: number): boolean {
  return ratio >= LEAST_RATIO && ratio <= MOST_RATIO;
}

interface Point {
  uptimeMs: number;
  arrivalUs: number;
}

/**
 * Decides whether a board's clock counts milliseconds. Compares its steps with those of arrival over live scans of one
 * boot. Repeated scans must not be passed: their arrival carries no information about the clock.
 */
export class ClockCheck {
  readonly #scale: number;
  #verdict: ClockVerdict;
  #ratio: number | null = null;
  #from: Point | null = null;
  #last: Point | null = null;
  #scans = 0;
  #spacingUs = 0;
  #doubts = 0;

  /**
   * @param scale how many times faster than real time the host's clock runs
   * @param before verdict for the boot before: the same firmware counts in the same way
   */
  constructor(scale: number, before: ClockVerdict = 'unknown') {
    this.#scale = scale;
    this.#verdict = before;
  }

  get verdict(): ClockVerdict {
    return this.#verdict;
  }

  /** Board milliseconds per millisecond of arrival over the last whole stretch; null before the first. */
  get ratio(): number | null {
    return this.#ratio;
  }

  observe(uptimeMs: number, arrivalUs: number): void {
    const point = { uptimeMs, arrivalUs };
    const spacingUs = this.#last ? arrivalUs - this.#last.arrivalUs : 0;
    const paused =
      spacingUs > PAUSE_REAL_US * this.#scale && this.#spacingUs > 0 && spacingUs > PAUSE_SPACINGS * this.#spacingUs;
    this.#last = point;
    if (!this.#from || paused) {
      this.#begin(point);
      return;
    }
    this.#scans++;
    this.#spacingUs = (arrivalUs - this.#from.arrivalUs) / (this.#scans - 1);
    const lastedUs = arrivalUs - this.#from.arrivalUs;
    if (this.#scans < LEAST_SCANS || lastedUs < Math.max(LEAST_US, LEAST_REAL_US * this.#scale)) return;
    this.#conclude((stepUint32(this.#from.uptimeMs, uptimeMs) * 1000) / lastedUs);
    this.#begin(point);
  }

  #begin(point: Point): void {
    this.#from = point;
    this.#scans = 1;
  }

  #conclude(ratio: number): void {
    this.#ratio = ratio;
    const isRight = countsMilliseconds(ratio);
    this.#doubts = isRight ? 0 : this.#doubts + 1;
    if (isRight) this.#verdict = 'right';
    else if (this.#verdict !== 'right' || this.#doubts >= STRETCHES_TO_DOUBT) this.#verdict = 'wrong';
  }
}

/** Computes round values for the ticks of an axis. Pure. */

export interface Ticks {
  readonly values: readonly number[];
  /** Number of decimals of the step. */
  readonly decimals: number;
}

/**
 * Returns multiples of 1, 2 or 5 times a power of ten from `low` to `high`, in at most `most` steps.
 * @param low below `high`, both finite
 */
export function roundTicks(low: number, high: number, most: number): Ticks {
  const rough = (high - low) / Math.max(1, most);
  const power = Math.floor(Math.log10(rough));
  const factor = [1, 2, 5, 10].find((step) => step * 10 ** power >= rough * (1 - 1e-9)) ?? 10;
  const exponent = factor === 10 ? power + 1 : power;
  // Counted in whole steps and divided at the end where the step is below one: 0.1 + 0.2 would not be 0.3.
  const place = (count: number) => {
    const units = count * (factor === 10 ? 1 : factor);
    return exponent < 0 ? units / 10 ** -exponent : units * 10 ** exponent;
  };
  const step = place(1);
  const values: number[] = [];
  // Adding 0 avoids a negative zero as the first count.
  for (let count = Math.ceil(low / step - 1e-9) + 0; count * step <= high + step * 1e-9; count += 1)
    values.push(place(count));
  return { values, decimals: Math.max(0, -exponent) };
}

/** Returns whole multiples of a step from `low` to `high`, both included. */
export function multiplesIn(low: number, high: number, step: number): number[] {
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  // Counted in whole steps, so that halves have no rounding error; adding 0 turns a negative zero into zero.
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * step + 0);
}

/** Returns the minutes between the figures on a time axis: round values, with about 56 px or pt per figure. */
export function minuteStep(spanMin: number, width: number): number {
  const wanted = (spanMin * 56) / Math.max(width, 1);
  return [5, 10, 15, 30, 60, 120, 240].find((step) => step >= wanted) ?? 480;
}

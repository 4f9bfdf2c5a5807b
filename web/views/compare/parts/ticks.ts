/** Round values for an axis. Pure. */

export interface Ticks {
  readonly values: readonly number[];
  /** How many decimals the step has. */
  readonly decimals: number;
}

/**
 * Multiples of 1, 2 or 5 times a power of ten from `low` to `high`, at most `most` steps of them.
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
  // Adding nothing keeps the first count from being a negative zero.
  for (let count = Math.ceil(low / step - 1e-9) + 0; count * step <= high + step * 1e-9; count += 1)
    values.push(place(count));
  return { values, decimals: Math.max(0, -exponent) };
}

/** Where values lie between two ends, in percent of the way. */
export function shareOf(low: number, high: number): (value: number) => number {
  return (value) => ((value - low) / (high - low)) * 100;
}

/** A range somewhat wider than its values, never of no width. */
export function aroundAll(values: readonly number[], margin = 0.08): { low: number; high: number } {
  const low = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const [span, size] = [high - low, Math.max(Math.abs(low), Math.abs(high))];
  // Values that differ only in their last digits are one value: a share of such a span is lost when it is added to them.
  const room = (span > size * 1e-9 ? span : size) * margin || 1;
  return { low: low - room, high: high + room };
}

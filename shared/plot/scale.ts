/** From values to places on an axis. Pure. */

export type Scale = (value: number) => number;

/** The straight line that puts `low` at `from` and `high` at `to`. */
export function linearScale([low, high]: readonly [number, number], [from, to]: readonly [number, number]): Scale {
  return (value) => from + ((value - low) / (high - low)) * (to - from);
}

/** Where values lie between two ends, in percent of the way. */
export function shareOf(low: number, high: number): Scale {
  return linearScale([low, high], [0, 100]);
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

/** Maps values to positions on an axis. Pure. */

export type Scale = (value: number) => number;

/** Returns the linear scale that maps `low` to `from` and `high` to `to`. */
export function linearScale([low, high]: readonly [number, number], [from, to]: readonly [number, number]): Scale {
  return (value) => from + ((value - low) / (high - low)) * (to - from);
}

/** Returns the scale that maps values between two ends to percent. */
export function shareOf(low: number, high: number): Scale {
  return linearScale([low, high], [0, 100]);
}

/** Returns a range slightly wider than its values, never of width zero. */
export function aroundAll(values: readonly number[], margin = 0.08): { low: number; high: number } {
  const low = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const [span, size] = [high - low, Math.max(Math.abs(low), Math.abs(high))];
  // Values that differ only in their last digits count as equal: a share of such a span is lost to rounding when it is
  // added to them.
  const room = (span > size * 1e-9 ? span : size) * margin || 1;
  return { low: low - room, high: high + room };
}

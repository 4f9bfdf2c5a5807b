/**
 * The one way a quantity refuses a value: wrong use throws a `RangeError` whose sentence says what was given, what is
 * accepted and in which unit. Every function in this folder follows it, so a caller either checks the published range
 * first or lets the sentence reach a person. NaN and the infinities are refused with the rest.
 */
export function requireWithin(what: string, value: number, low: number, high: number, unit: string): void {
  if (value >= low && value <= high) return;
  const suffix = unit === '' ? '' : ` ${unit}`;
  throw new RangeError(`${what} must lie from ${low} to ${high}${suffix}; it was given as ${value}${suffix}`);
}

/**
 * The range check of every quantity: a wrong argument throws a `RangeError` whose message gives the value, the accepted
 * range and the unit. Every function in this folder uses it, so a caller either checks the published range first or
 * shows the message to a person. NaN and the infinities are refused too.
 */
export function requireWithin(what: string, value: number, low: number, high: number, unit: string): void {
  if (value >= low && value <= high && Number.isFinite(value)) return;
  const limits =
    high === Number.POSITIVE_INFINITY ? `be at least ${write(low)}` : `lie from ${write(low)} to ${write(high)}`;
  throw new RangeError(refusal(what, limits, value, unit));
}

/** As `requireWithin`, for a quantity that must be above zero and has no upper limit. */
export function requirePositive(what: string, value: number, unit: string): void {
  if (value > 0 && Number.isFinite(value)) return;
  throw new RangeError(refusal(what, 'be above 0', value, unit));
}

function refusal(what: string, limits: string, value: number, unit: string): string {
  const suffix = unit === '' ? '' : ` ${unit}`;
  return `${what} must ${limits}${suffix}; it was given as ${value}${suffix}`;
}

/** A limit computed by a formula, without meaningless digits. */
function write(limit: number): string {
  return String(Number(limit.toPrecision(6)));
}

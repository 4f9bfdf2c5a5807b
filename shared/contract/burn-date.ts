/** Whether a burn has a calendar date, and which; without schemas, since the page loads it too. */

const EARLIEST_UTC_MS = Date.UTC(1990, 0);
const LATEST_UTC_MS = Date.UTC(2200, 0);

/** Whether a moment can be the date of a burn; a machine without a clock starts in 1970. */
export function isDate(utcMs: number): boolean {
  return utcMs >= EARLIEST_UTC_MS && utcMs < LATEST_UTC_MS;
}

/** When a burn began, ms UTC; undefined where the clock cannot have been right. */
export function startDateMs(burn: {
  readonly startedUtcMs?: number | undefined;
  readonly clockSource?: string | undefined;
}): number | undefined {
  const { startedUtcMs, clockSource } = burn;
  return startedUtcMs === undefined || clockSource === 'none' || !isDate(startedUtcMs) ? undefined : startedUtcMs;
}

/** Converts a time of day to the moment that a person means by it. Pure. */

const LONGEST_MIN = 12 * 60;

/**
 * How long ago, in s, the clock at the place showed a time of day; `undefined` when it did not within the last twelve
 * hours. Searched backwards minute by minute, so that an hour skipped or repeated by daylight saving is treated as the
 * clock on the wall showed it.
 * @param timeOfDay as 14:05
 */
export function agoSOf(timeOfDay: string, nowUtcMs: number, zone: string | undefined): number | undefined {
  const format = new Intl.DateTimeFormat('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    ...(zone && { timeZone: zone }),
  });
  for (let minutes = 0; minutes <= LONGEST_MIN; minutes++) {
    const atMs = nowUtcMs - minutes * 60_000;
    if (format.format(atMs) === timeOfDay) return Math.max(0, (nowUtcMs - Math.floor(atMs / 60_000) * 60_000) / 1000);
  }
  return undefined;
}

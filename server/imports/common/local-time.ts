/**
 * UTC of a moment on the wall clock of a zone. In the hour that a clock shows twice, the first one is meant.
 * @param localMs the wall clock read as if it were UTC, ms since 1970
 * @param zone IANA name, for example "Europe/Paris"
 */
export function utcOfLocal(localMs: number, zone: string): number {
  // The offset belongs to the moment that is sought: a first guess a few hours off may lie behind a change of the clock.
  const guess = localMs - aheadMs(localMs, zone);
  const first = localMs - aheadMs(guess, zone);
  const earlier = localMs - aheadMs(first - 3 * 3_600_000, zone);
  return earlier + aheadMs(earlier, zone) === localMs ? earlier : first;
}

/** How far the wall clock of the zone is ahead of UTC. */
function aheadMs(utcMs: number, zone: string): number {
  const parts = new Intl.DateTimeFormat('en-GB', { timeZone: zone, timeZoneName: 'longOffset' }).formatToParts(utcMs);
  const name = parts.find(({ type }) => type === 'timeZoneName')?.value ?? 'GMT';
  const [, sign, hours = '0', minutes = '0'] = /GMT([+-])(\d{2}):(\d{2})/.exec(name) ?? [];
  return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes)) * 60_000;
}

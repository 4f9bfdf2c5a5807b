/** Days and times of day of a burn, by the clock of its place. */
import { startDateMs } from '../../shared/contract/burn-date.ts';
import { isZone } from '../../shared/contract/natural.ts';
import { type Language, writing } from '../../shared/language/language.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';

type Dated = Pick<RecordWithoutReadings, 'startedUtcMs' | 'zone' | 'clockSource'>;

export interface BurnTime {
  /** e.g. "19 October 2026" */
  readonly day: (elapsedUs: number) => string;
  /** e.g. "10:02:04" */
  readonly time: (elapsedUs: number) => string;
  readonly zone: string;
}

/**
 * Undefined where the machine had no clock, or for an impossible date. Times are in UTC, and labelled so, where the
 * zone is not known.
 */
export function burnTimeOf(burn: Dated, language: Language): BurnTime | undefined {
  const { zone } = burn;
  const startMs = startDateMs(burn);
  if (startMs === undefined) return undefined;
  const timeZone = zone !== undefined && isZone(zone) ? zone : 'UTC';
  const { locale } = writing[language];
  const day = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone });
  const time = new Intl.DateTimeFormat(locale, { timeStyle: 'medium', timeZone });
  const at = (elapsedUs: number) => startMs + elapsedUs / 1000;
  return {
    day: (elapsedUs) => day.format(at(elapsedUs)),
    time: (elapsedUs) => time.format(at(elapsedUs)),
    zone: timeZone,
  };
}

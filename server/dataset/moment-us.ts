import { isDate } from '../../shared/contract/natural.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';

/** A moment of a burn in microseconds since 1970, UTC; null on a bench that had no clock. */
export function momentUs({ startedUtcMs, clockSource }: RecordWithoutReadings, elapsedUs: number): number | null {
  return startedUtcMs === undefined || clockSource === 'none' || !isDate(startedUtcMs)
    ? null
    : startedUtcMs * 1000 + elapsedUs;
}

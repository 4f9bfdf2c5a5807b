import { startDateMs } from '../../shared/contract/burn-date.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';

/** A moment of a burn in microseconds since 1970, UTC; null on a bench that had no clock. */
export function momentUs(record: RecordWithoutReadings, elapsedUs: number): number | null {
  const startMs = startDateMs(record);
  return startMs === undefined ? null : startMs * 1000 + elapsedUs;
}

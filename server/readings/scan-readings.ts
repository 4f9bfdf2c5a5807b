import type { ScanEvent } from '../bridge/bridge.ts';
import type { Scan } from '../store/store.ts';

/**
 * The readings of a scan as they are stored: a count, a fault, or nothing. A plain board may print a number too large
 * to be stored as a count; that is outside any probe's range.
 */
export function readingsOf({ counts, faults }: ScanEvent): Scan['readings'] {
  return counts.map((count, channel) => {
    const fault = faults[channel];
    if (fault) return fault;
    return count !== null && (count | 0) !== count ? 'outOfRange' : count;
  });
}

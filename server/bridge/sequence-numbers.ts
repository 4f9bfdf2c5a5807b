/** Sequence numbers and uptimes are uint32 that wrap: differences are taken modulo 2^32, as a signed number. */

/** How far `to` is ahead of `from`: −2^31 … 2^31 − 1; the half-way distance counts as behind. */
export function stepUint32(from: number, to: number): number {
  return (to - from) | 0;
}

/** The uint32 form of an unwrapped count. */
export function wrapUint32(count: number): number {
  return count >>> 0;
}

/** A hundred scans a second for more than a day: numbers that jump by more were restarted somewhere in between. */
export const MOST_MISSED = 10_000_000;

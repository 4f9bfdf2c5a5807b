import { type ClockVerdict, countsMilliseconds, LEAST_SCANS, LEAST_US } from '../bridge/clock-check.ts';
import { stepUint32, wrapUint32 } from '../bridge/sequence-numbers.ts';
import type { Scan, Scans } from '../store/store.ts';

/** Enough to tell, few enough that a clock of microseconds has not wrapped meanwhile. */
const SCANS_LOOKED_AT = 120;

export interface BoardClock {
  /** Did it count milliseconds? */
  verdict: ClockVerdict;
  /** Usual time between two scans, microseconds; undefined where the burn has fewer than two. */
  periodUs: number | undefined;
  /** The newest number that the burn has. */
  last: { sequence: number; uptimeMs: number };
}

/**
 * How the clock of a board ran over the last scans that a burn has of one boot: known after a restart of the service too.
 * @returns undefined when the burn has none
 */
export function boardClockIn(scans: Scans, burnId: string, boardId: string, boot: number): BoardClock | undefined {
  const newest = scans.latest(burnId, boardId);
  const last = newest?.boot === boot ? newest : scans.around(burnId, boardId, { boot, sequence: 2 ** 32 }).before;
  if (!last) return undefined;
  // Numbers wrap: what stands lower in the store may have been made later.
  const countTo = (scan: Scan | undefined) => (scan ? stepUint32(scan.sequence, last.sequence) : 0);
  const near = (sequence: number) => scans.around(burnId, boardId, { boot, sequence });
  const { before, after } = near(wrapUint32(last.sequence - SCANS_LOOKED_AT));
  const first = [before, after, near(-1).after].find((scan) => countTo(scan) > 0);
  const count = countTo(first);
  const lastedUs = first ? last.elapsedUs - first.elapsedUs : 0;
  if (!first || count <= 0 || lastedUs <= 0) return { verdict: 'unknown', periodUs: undefined, last };
  const ratio = (stepUint32(first.uptimeMs, last.uptimeMs) * 1000) / lastedUs;
  const isReported = lastedUs >= LEAST_US && count >= LEAST_SCANS;
  const verdict = !isReported ? 'unknown' : countsMilliseconds(ratio) ? 'right' : 'wrong';
  return { verdict, periodUs: lastedUs / count, last };
}

/**
 * Whether it tells how much time lies between the last scan of the burn and a later one. Of a clock that is not known long
 * enough it is believed when it agrees with the numbers, one scan a period.
 */
export function datesScan(clock: BoardClock, scan: { sequence: number; uptimeMs: number }): boolean {
  const { verdict, periodUs, last } = clock;
  if (verdict !== 'unknown') return verdict === 'right';
  const [count, passedMs] = [stepUint32(last.sequence, scan.sequence), stepUint32(last.uptimeMs, scan.uptimeMs)];
  return periodUs === undefined ? passedMs > 0 : countsMilliseconds((passedMs * 1000) / (count * periodUs));
}

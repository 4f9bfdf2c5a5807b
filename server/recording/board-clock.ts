import { type ClockVerdict, countsMilliseconds, LEAST_SCANS, LEAST_US } from '../bridge/clock-check.ts';
import { stepUint32, wrapUint32 } from '../bridge/sequence-numbers.ts';
import type { Scan, Scans } from '../store/store.ts';

/** Enough for a verdict, and few enough that a clock counting microseconds has not wrapped within them. */
const SCANS_LOOKED_AT = 120;

export interface BoardClock {
  /** Whether it counted milliseconds. */
  verdict: ClockVerdict;
  /** Usual time between two scans, microseconds; undefined where the burn has fewer than two. */
  periodUs: number | undefined;
  /** The newest scan stored in the burn. */
  last: { sequence: number; uptimeMs: number };
}

/**
 * How the clock of a board ran over the last scans that a burn has of one boot; computed from stored scans, so it is
 * known after a restart of the service too.
 * @returns undefined when the burn has none
 */
export function boardClockIn(scans: Scans, burnId: string, boardId: string, boot: number): BoardClock | undefined {
  const newest = scans.latest(burnId, boardId);
  const last = newest?.boot === boot ? newest : scans.around(burnId, boardId, { boot, sequence: 2 ** 32 }).before;
  if (!last) return undefined;
  // Numbers wrap: a scan with a lower number may have been made later.
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
 * Whether the clock gives the time between the last scan of the burn and a later one. A clock without a verdict yet is
 * used when it agrees with the numbers, one scan per period.
 */
export function datesScan(clock: BoardClock, scan: { sequence: number; uptimeMs: number }): boolean {
  const { verdict, periodUs, last } = clock;
  if (verdict !== 'unknown') return verdict === 'right';
  const [count, passedMs] = [stepUint32(last.sequence, scan.sequence), stepUint32(last.uptimeMs, scan.uptimeMs)];
  return periodUs === undefined ? passedMs > 0 : countsMilliseconds((passedMs * 1000) / (count * periodUs));
}

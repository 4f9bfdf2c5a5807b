import { type ClockVerdict, countsMilliseconds, LEAST_SCANS, LEAST_US } from '../bridge/clock-check.ts';
import { stepUint32 } from '../bridge/sequence.ts';
import type { Scans } from '../store/store.ts';

/** Enough to tell, few enough that a clock of microseconds has not wrapped meanwhile. */
const SCANS_LOOKED_AT = 120;

export interface BoardClock {
  /** Does it count milliseconds? */
  verdict: ClockVerdict;
  /** Usual time between two scans, microseconds; undefined where the burn has fewer than two. */
  periodUs: number | undefined;
}

/** How the clock of a board ran over the last scans that a burn has of one boot: known after a restart of the service too. */
export function boardClockIn(scans: Scans, burnId: string, boardId: string, boot: number): BoardClock {
  const { before: last } = scans.around(burnId, boardId, { boot, sequence: 2 ** 32 });
  if (!last) return { verdict: 'unknown', periodUs: undefined };
  const { before, after } = scans.around(burnId, boardId, { boot, sequence: last.sequence - SCANS_LOOKED_AT });
  const first = before ?? after!;
  const [count, lastedUs] = [last.sequence - first.sequence, last.elapsedUs - first.elapsedUs];
  if (count <= 0 || lastedUs <= 0) return { verdict: 'unknown', periodUs: undefined };
  const ratio = (stepUint32(first.uptimeMs, last.uptimeMs) * 1000) / lastedUs;
  const isTold = lastedUs >= LEAST_US && count >= LEAST_SCANS;
  return { verdict: !isTold ? 'unknown' : countsMilliseconds(ratio) ? 'right' : 'wrong', periodUs: lastedUs / count };
}

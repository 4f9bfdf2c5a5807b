/** The content of a gap's record, and the parts into which a gap is split when some of its scans become known. */
import type { ScanEvent } from '../bridge/bridge.ts';
import type { ClockVerdict } from '../bridge/clock-check.ts';
import { stepUint32, wrapUint32 } from '../bridge/sequence-numbers.ts';
import type { NewGap, StoredGap } from '../store/store.ts';

/** Whether the gap waits for its board to send again after the end of the burn. */
export function isEnd(gap: StoredGap): boolean {
  return gap.isOpen && gap.fromSequence !== null && gap.toSequence === null;
}

/** From the last scan of a burn to its end: the last number is unknown until the board sends again. */
export function endAfter(
  boardId: string,
  { boot, sequence, deviceUptimeMs }: Pick<ScanEvent, 'boot' | 'sequence' | 'deviceUptimeMs'>,
  fromUs: number,
  toUs: number,
  cause: NewGap['cause'],
): NewGap {
  const fromSequence = wrapUint32(sequence + 1);
  const numbers = { boot, fromSequence, toSequence: null, beforeMs: deviceUptimeMs, afterMs: null };
  return { boardId, fromUs, toUs, cause, isOpen: true, numbers };
}

export function holds({ fromSequence, toSequence }: StoredGap, sequence: number): boolean {
  if (fromSequence === null || toSequence === null) return false;
  return stepUint32(fromSequence, sequence) >= 0 && stepUint32(sequence, toSequence) >= 0;
}

/** Position of a missing scan between the scans on either side of a gap, by its number: above 0 and below 1. */
function shareByNumber(from: number, to: number, sequence: number): number {
  return (stepUint32(from, sequence) + 1) / (stepUint32(from, to) + 2);
}

type Stretch = Pick<StoredGap, 'fromUs' | 'toUs' | 'fromSequence' | 'toSequence' | 'beforeMs' | 'afterMs'>;

/**
 * The moment of a missing scan on the burn's clock, from its neighbours: below 0 before the burn, beyond `toUs` after its
 * end. Between two neighbours it is interpolated by the board's clock, or by its number when that clock is unusable.
 * @param clock whether the board's clock counts milliseconds
 */
export function momentIn(gap: Stretch, sequence: number, uptimeMs: number, clock: ClockVerdict = 'unknown'): number {
  const { fromUs, toUs, fromSequence, toSequence, beforeMs, afterMs } = gap;
  if (afterMs === null) return fromUs + Math.max(0, stepUint32(beforeMs ?? uptimeMs, uptimeMs)) * 1000;
  const within = (share: number) =>
    Math.min(Math.max(Math.round(fromUs + (toUs - fromUs) * share), fromUs + 1), toUs - 1);
  const byNumber = () => within(shareByNumber(fromSequence!, toSequence!, sequence));
  if (beforeMs === null) {
    if (clock === 'wrong' || uptimeMs === afterMs) return byNumber();
    const elapsedUs = toUs - stepUint32(uptimeMs, afterMs) * 1000;
    // Before the first scan of a burn comes the time before the burn; before the first of a boot comes another boot.
    return fromUs > 0 ? Math.max(fromUs + 1, elapsedUs) : elapsedUs;
  }
  const share = stepUint32(beforeMs, uptimeMs) / stepUint32(beforeMs, afterMs);
  return share > 0 && share < 1 ? within(share) : byNumber();
}

/**
 * The gap without one scan that has arrived, or that was found to be from before or after the burn.
 * @param endUs nothing after this moment belongs to the burn
 */
export function withoutScan(
  gap: StoredGap,
  scan: { sequence: number; uptimeMs: number },
  elapsedUs: number,
  endUs: number,
): NewGap[] {
  const { boardId, cause, isOpen, fromUs, toUs, beforeMs, afterMs, fromSequence, toSequence } = gap;
  const boot = gap.boot!;
  const shared = { cause, isOpen, ...(boardId !== undefined && { boardId }) };
  const parts: NewGap[] = [];
  if (elapsedUs >= 0 && fromSequence !== null && fromSequence !== scan.sequence) {
    const numbers = { boot, fromSequence, toSequence: wrapUint32(scan.sequence - 1), beforeMs };
    const end = elapsedUs > toUs ? { toUs, afterMs: null } : { toUs: elapsedUs, afterMs: scan.uptimeMs };
    parts.push({ ...shared, fromUs, toUs: end.toUs, numbers: { ...numbers, afterMs: end.afterMs } });
  }
  if (elapsedUs <= endUs && toSequence !== scan.sequence) {
    const numbers = { boot, fromSequence: wrapUint32(scan.sequence + 1), toSequence, afterMs };
    // Moment and board clock of one scan belong together: of a scan from before the burn neither is used.
    const start = elapsedUs < 0 ? { fromUs: 0, beforeMs: null } : { fromUs: elapsedUs, beforeMs: scan.uptimeMs };
    parts.push({ ...shared, fromUs: start.fromUs, toUs, numbers: { ...numbers, beforeMs: start.beforeMs } });
  }
  return parts;
}

/**
 * The part of reported gaps before the end of the burn: open ones may extend beyond it, up to a scan whose time is
 * known.
 */
export function withinBurn(parts: readonly NewGap[], endUs: number): NewGap[] {
  return parts.flatMap((part) => {
    const { isOpen, fromUs, toUs, numbers } = part;
    if (isOpen || toUs <= endUs) return [part];
    if (fromUs >= endUs) return [];
    if (!numbers || numbers.fromSequence === null || numbers.toSequence === null) return [{ ...part, toUs: endUs }];
    const count = stepUint32(numbers.fromSequence, numbers.toSequence) + 1;
    const inBurn = Math.min(count, Math.floor(((endUs - fromUs) / (toUs - fromUs)) * (count + 1)));
    if (inBurn === 0) return [];
    const toSequence = wrapUint32(numbers.fromSequence + inBurn - 1);
    return [{ ...part, toUs: endUs, numbers: { ...numbers, toSequence, afterMs: null } }];
  });
}

/** The parts of a gap after its numbers from `first` to `last` were given up. */
export function partsGivenUp(gap: StoredGap, first: number, last: number): NewGap[] {
  const [from, to] = [gap.fromSequence!, gap.toSequence!];
  const low = stepUint32(from, first) > 0 ? first : from;
  const high = stepUint32(last, to) > 0 ? last : to;
  const momentOf = (sequence: number) =>
    Math.round(gap.fromUs + (gap.toUs - gap.fromUs) * shareByNumber(from, to, sequence));
  const uptimeOf = (sequence: number): number | null => {
    if (gap.beforeMs === null || gap.afterMs === null) return null;
    const passedMs = stepUint32(gap.beforeMs, gap.afterMs) * shareByNumber(from, to, sequence);
    return wrapUint32(Math.round(gap.beforeMs + passedMs));
  };
  const shared = { cause: gap.cause, ...(gap.boardId !== undefined && { boardId: gap.boardId }) };
  const boot = gap.boot!;
  const parts: NewGap[] = [];
  if (low !== from) {
    const endMs = uptimeOf(low);
    const isKnown = endMs !== null || gap.afterMs === null;
    const [end, afterMs] = isKnown ? [momentOf(low), endMs] : [gap.toUs, gap.afterMs];
    const numbers = { boot, fromSequence: from, toSequence: wrapUint32(low - 1), beforeMs: gap.beforeMs, afterMs };
    parts.push({ ...shared, isOpen: true, fromUs: gap.fromUs, toUs: end, numbers });
  }
  parts.push({
    ...shared,
    fromUs: low === from ? gap.fromUs : momentOf(wrapUint32(low - 1)),
    toUs: high === to ? gap.toUs : momentOf(wrapUint32(high + 1)),
    numbers: {
      boot,
      fromSequence: low,
      toSequence: high,
      beforeMs: low === from ? gap.beforeMs : uptimeOf(wrapUint32(low - 1)),
      afterMs: high === to ? gap.afterMs : uptimeOf(wrapUint32(high + 1)),
    },
  });
  if (high !== to) {
    // Moment and board clock of one scan belong together: recovered scans are dated from them.
    const startMs = uptimeOf(high);
    const isKnown = startMs !== null || gap.beforeMs === null;
    const [start, beforeMs] = isKnown ? [momentOf(high), startMs] : [gap.fromUs, gap.beforeMs];
    const numbers = { boot, fromSequence: wrapUint32(high + 1), toSequence: to, beforeMs, afterMs: gap.afterMs };
    parts.push({ ...shared, isOpen: true, fromUs: start, toUs: gap.toUs, numbers });
  }
  return parts;
}

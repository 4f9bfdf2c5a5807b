/**
 * The scans that a burn misses, kept in the store from the moment they are missed, so that neither the end of the burn nor
 * that of the service forgets them. A missing scan that comes is dated by its neighbours: the board's clock tells how far it
 * lies between them, whatever has happened to the burn's own clock meanwhile.
 */
import { readingsOf } from '../bench/scan-readings.ts';
import type { GapEvent, MissedScans, ScanEvent } from '../bridge/bridge.ts';
import { MOST_MISSED, stepUint32, wrapUint32 } from '../bridge/sequence.ts';
import type { KeptGap, NewGap, Scan, Store } from '../store/store.ts';
import type { BurnTime } from './burn-time.ts';

type Cause = NewGap['cause'];
/** Number and time on the board of a scan, and its moment on the burn's clock. */
export type Dated = Pick<Scan, 'boot' | 'sequence' | 'uptimeMs' | 'elapsedUs'>;

/** A burn that ended within so many periods of the last scan misses none. */
const USUAL_PERIODS = 1.5;

/** Each call is to be made inside one transaction with what goes with it; those that change gaps answer whose. */
export interface MissingScanLog {
  /**
   * A live scan has come that shows others to be missing.
   * @param before the scan of this board that the burn has before it; undefined when it has none
   */
  missed(burnId: string, boardId: string, before: Dated | undefined, scan: Dated, missed: MissedScans | null): void;
  /** A scan that was missed has come: puts it into every burn that misses it. */
  recovered(scan: ScanEvent): string[];
  /** Scans will never come. */
  givenUp(gap: GapEvent): string[];
  /** The burn has ended: what its board made after its last scan is not known until the board is heard again. */
  endedAfter(burnId: string, boardId: string, last: Dated, endedUs: number, cause: Cause): void;
  /** A live scan of a board that some burn has waited for since it ended. */
  heardAfterEnd(scan: ScanEvent): string[];
  /** Nothing more is waited for: tells what is open of a burn (or of one of its boards) as gaps. */
  tell(burnId: string, boardId?: string): void;
  /** The burn goes on after it had ended: what came in between was not meant to be its own. */
  reopened(burnId: string): void;
}

export function createMissingScanLog(store: Store, time: BurnTime): MissingScanLog {
  const { gaps, scans } = store;

  function missed(
    burnId: string,
    boardId: string,
    before: Dated | undefined,
    scan: Dated,
    missed: MissedScans | null,
  ): void {
    const stretch = { boardId, fromUs: before?.elapsedUs ?? 0, toUs: scan.elapsedUs, cause: missed?.cause ?? 'lost' };
    if (stretch.toUs <= stretch.fromUs) return;
    const isSameBoot = before?.boot === scan.boot;
    const known = before && isSameBoot ? stepUint32(before.sequence, scan.sequence) - 1 : (missed?.known ?? 0);
    if (before && !isSameBoot) {
      const numbers = { boot: scan.boot, fromSequence: null, toSequence: null, beforeMs: null, afterMs: null };
      gaps.add(burnId, { ...stretch, cause: stretch.cause === 'lost' ? 'reset' : stretch.cause, numbers });
    }
    if (known <= 0 || known > MOST_MISSED) return;
    gaps.add(burnId, {
      ...stretch,
      isOpen: true,
      numbers: {
        boot: scan.boot,
        fromSequence: wrapUint32(scan.sequence - known),
        toSequence: wrapUint32(scan.sequence - 1),
        beforeMs: isSameBoot && before ? before.uptimeMs : null,
        afterMs: scan.uptimeMs,
      },
    });
  }

  /** The gap without one scan that has come, or that was found to lie before or after the burn. */
  function split(gap: KeptGap, scan: { sequence: number; uptimeMs: number }, elapsedUs: number): void {
    const { boardId, cause, isOpen, fromUs, toUs, beforeMs, afterMs, fromSequence, toSequence } = gap;
    const boot = gap.boot!;
    const shared = { cause, isOpen, ...(boardId !== undefined && { boardId }) };
    const parts: NewGap[] = [];
    const endsBefore = elapsedUs > toUs;
    if (elapsedUs >= 0 && fromSequence !== null && fromSequence !== scan.sequence) {
      const numbers = { boot, fromSequence, toSequence: wrapUint32(scan.sequence - 1), beforeMs };
      const end = endsBefore ? { toUs, afterMs: null } : { toUs: elapsedUs, afterMs: scan.uptimeMs };
      parts.push({ ...shared, fromUs, toUs: end.toUs, numbers: { ...numbers, afterMs: end.afterMs } });
    }
    if (!endsBefore && toSequence !== scan.sequence) {
      const numbers = { boot, fromSequence: wrapUint32(scan.sequence + 1), toSequence, afterMs };
      const start = Math.max(0, elapsedUs);
      parts.push({ ...shared, fromUs: start, toUs, numbers: { ...numbers, beforeMs: scan.uptimeMs } });
    }
    gaps.replace(gap, parts);
  }

  /** What was lost with the boot before reaches only to the first scan of this one. */
  function shortenReset(burnId: string, boardId: string, boot: number, elapsedUs: number): void {
    for (const gap of gaps.ofBoard(boardId)) {
      const isReset =
        gap.burnId === burnId && gap.boot === boot && gap.fromSequence === null && gap.toSequence === null;
      if (!isReset || elapsedUs >= gap.toUs || elapsedUs <= gap.fromUs) continue;
      const { fromUs, cause, beforeMs, afterMs } = gap;
      const numbers = { boot, fromSequence: null, toSequence: null, beforeMs, afterMs };
      gaps.replace(gap, [{ boardId, fromUs, toUs: elapsedUs, cause, isOpen: gap.isOpen, numbers }]);
    }
  }

  function keep(burnId: string, scan: ScanEvent, elapsedUs: number): void {
    const { boot, sequence, deviceUptimeMs: uptimeMs } = scan;
    // The clock of a burn that has ended stands still.
    const arrivedUs = time.elapsedAt(burnId, scan.arrivalUs) ?? elapsedUs;
    const kept = { boot, sequence, uptimeMs, elapsedUs, arrivedUs, readings: readingsOf(scan) };
    scans.append(burnId, scan.boardKey, kept);
  }

  /** A scan that lies in no gap, between others of a burn that goes on: it was given up, or missed by another name. */
  function keepBetween(scan: ScanEvent, found: readonly KeptGap[]): void {
    const { boardKey, boot, sequence } = scan;
    for (const id of time.running()) {
      if (found.some(({ burnId }) => burnId === id) || scans.find(id, boardKey, { boot, sequence })) continue;
      const { before, after } = scans.around(id, boardKey, { boot, sequence });
      if (!before || !after || after.sequence - before.sequence > MOST_MISSED) continue;
      const numbers = { fromSequence: before.sequence + 1, toSequence: after.sequence - 1 };
      const times = { fromUs: before.elapsedUs, toUs: after.elapsedUs };
      const clock = { beforeMs: before.uptimeMs, afterMs: after.uptimeMs };
      keep(id, scan, momentIn({ ...numbers, ...times, ...clock }, sequence, scan.deviceUptimeMs));
    }
  }

  /** What is open at the end of a burn once its board has been heard again, without having been started again. */
  function goneOn(gap: KeptGap, scan: ScanEvent): NewGap[] {
    const { boardKey: boardId, sequence, deviceUptimeMs: uptimeMs } = scan;
    const { fromUs, toUs, cause, beforeMs } = gap;
    const [boot, fromSequence] = [gap.boot!, gap.fromSequence!];
    const ahead = stepUint32(fromSequence, sequence);
    if (ahead < 0) return [{ ...gap, numbers: { ...gap, boot } }];
    const elapsedUs = momentIn(gap, sequence, uptimeMs);
    const isInBurn = elapsedUs <= toUs;
    if (isInBurn) keep(gap.burnId, scan, elapsedUs);
    const numbers = { boot, fromSequence, toSequence: wrapUint32(sequence - 1), beforeMs };
    const skipped: NewGap = {
      boardId,
      cause,
      isOpen: true,
      fromUs,
      toUs: isInBurn ? elapsedUs : toUs,
      numbers: { ...numbers, afterMs: isInBurn ? uptimeMs : null },
    };
    return [...(ahead > 0 ? [skipped] : []), ...(isInBurn ? [endAfter(boardId, scan, elapsedUs, toUs, cause)] : [])];
  }

  /** The same when it was started again: what it had made before is gone, what it made since may lie in the burn. */
  function startedAgain(gap: KeptGap, scan: ScanEvent): NewGap[] {
    const { boardKey: boardId, boot, sequence, deviceUptimeMs: uptimeMs } = scan;
    const { fromUs, toUs, cause } = gap;
    const elapsedUs = time.elapsedSinceEnded(gap.burnId, scan.hostUs);
    if (elapsedUs === undefined) return told(gap);
    const isInBurn = elapsedUs <= toUs;
    const endUs = isInBurn ? elapsedUs : toUs;
    if (isInBurn) keep(gap.burnId, scan, elapsedUs);
    const gone = { boot, fromSequence: null, toSequence: null, beforeMs: null, afterMs: null };
    const first: NewGap = {
      boardId,
      cause,
      isOpen: true,
      fromUs,
      toUs: endUs,
      numbers: {
        boot,
        fromSequence: 0,
        toSequence: wrapUint32(sequence - 1),
        beforeMs: null,
        afterMs: wrapUint32(uptimeMs - Math.round((elapsedUs - endUs) / 1000)),
      },
    };
    return [
      ...told(gap).map((each) => ({ ...each, toUs: endUs, numbers: gone })),
      ...(sequence > 0 && sequence <= MOST_MISSED ? [first] : []),
      ...(isInBurn ? [endAfter(boardId, scan, elapsedUs, toUs, cause)] : []),
    ];
  }

  /** What a gap comes to when nothing more is waited for. Nobody missed anything less than a period after the last scan. */
  function told(gap: KeptGap): NewGap[] {
    const { boardId, fromUs, toUs, cause, boot, fromSequence, toSequence, beforeMs, afterMs } = gap;
    if (isEnd(gap) && boardId !== undefined) {
      const last = { boot: boot!, sequence: wrapUint32(fromSequence! - 1) };
      const { before } = scans.around(gap.burnId, boardId, last);
      if (before && toUs - fromUs < USUAL_PERIODS * (fromUs - before.elapsedUs)) return [];
    }
    const numbers = boot === null ? undefined : { boot, fromSequence, toSequence, beforeMs, afterMs };
    return [{ ...(boardId !== undefined && { boardId }), fromUs, toUs, cause, ...(numbers && { numbers }) }];
  }

  return {
    missed,

    recovered(scan) {
      const { boardKey, boot, sequence, deviceUptimeMs: uptimeMs } = scan;
      const holding = gaps.ofBoard(boardKey).filter((gap) => gap.boot === boot && holds(gap, sequence));
      for (const gap of holding) {
        const elapsedUs = momentIn(gap, sequence, uptimeMs);
        if (elapsedUs >= 0 && elapsedUs <= gap.toUs) {
          keep(gap.burnId, scan, elapsedUs);
          shortenReset(gap.burnId, boardKey, boot, elapsedUs);
        }
        split(gap, { sequence, uptimeMs }, elapsedUs);
      }
      keepBetween(scan, holding);
      return holding.map(({ burnId }) => burnId);
    },

    givenUp({ boardKey, from, to }) {
      const isOneBoot = from !== null && from.boot === to.boot;
      const first = isOneBoot ? wrapUint32(from.sequence + 1) : 0;
      const last = wrapUint32(to.sequence - 1);
      const touched = gaps
        .ofBoard(boardKey)
        .filter((gap) => gap.isOpen && gap.boot === to.boot && gap.toSequence !== null && gap.fromSequence !== null)
        .filter((gap) => stepUint32(first, gap.toSequence!) >= 0 && stepUint32(gap.fromSequence!, last) >= 0);
      for (const gap of touched) gaps.replace(gap, partsGivenUp(gap, first, last));
      return touched.map(({ burnId }) => burnId);
    },

    endedAfter(burnId, boardId, last, endedUs, cause) {
      if (endedUs <= last.elapsedUs) return;
      const scan = { ...last, deviceUptimeMs: last.uptimeMs };
      gaps.add(burnId, endAfter(boardId, scan, last.elapsedUs, endedUs, cause));
    },

    heardAfterEnd(scan) {
      const waiting = gaps.ofBoard(scan.boardKey).filter((gap) => isEnd(gap) && !time.isRunning(gap.burnId));
      for (const gap of waiting)
        gaps.replace(gap, gap.boot === scan.boot ? goneOn(gap, scan) : startedAgain(gap, scan));
      return waiting.map(({ burnId }) => burnId);
    },

    tell(burnId, boardId) {
      for (const gap of gaps.open(burnId)) {
        if (boardId === undefined || gap.boardId === boardId) gaps.replace(gap, told(gap));
      }
    },

    reopened(burnId) {
      for (const gap of gaps.open(burnId)) if (isEnd(gap)) gaps.replace(gap, []);
    },
  };
}

/** Waits for the board to be heard again after the end of its burn. */
export function isEnd(gap: KeptGap): boolean {
  return gap.isOpen && gap.fromSequence !== null && gap.toSequence === null;
}

/** From the last scan of a burn to its end: how far the numbers go is not known until the board is heard again. */
function endAfter(
  boardId: string,
  { boot, sequence, deviceUptimeMs }: Pick<ScanEvent, 'boot' | 'sequence' | 'deviceUptimeMs'>,
  fromUs: number,
  toUs: number,
  cause: Cause,
): NewGap {
  const fromSequence = wrapUint32(sequence + 1);
  const numbers = { boot, fromSequence, toSequence: null, beforeMs: deviceUptimeMs, afterMs: null };
  return { boardId, fromUs, toUs, cause, isOpen: true, numbers };
}

function holds({ fromSequence, toSequence }: KeptGap, sequence: number): boolean {
  if (fromSequence === null || toSequence === null) return false;
  return stepUint32(fromSequence, sequence) >= 0 && stepUint32(sequence, toSequence) >= 0;
}

type Stretch = Pick<KeptGap, 'fromUs' | 'toUs' | 'fromSequence' | 'toSequence' | 'beforeMs' | 'afterMs'>;

/**
 * The moment of a missing scan on the burn's clock, from its neighbours: below 0 before the burn, beyond `toUs` after its end.
 * Between two neighbours it lies as far as the board's clock says, or as its number says when that clock makes no sense.
 */
function momentIn(gap: Stretch, sequence: number, uptimeMs: number): number {
  const { fromUs, toUs, fromSequence, toSequence, beforeMs, afterMs } = gap;
  if (afterMs === null) return fromUs + Math.max(0, stepUint32(beforeMs ?? uptimeMs, uptimeMs)) * 1000;
  if (beforeMs === null) {
    const elapsedUs = toUs - stepUint32(uptimeMs, afterMs) * 1000;
    // Before the first scan of a burn lies what was before it; before the first of a boot lies another boot.
    return fromUs > 0 ? Math.max(fromUs + 1, elapsedUs) : elapsedUs;
  }
  let share = stepUint32(beforeMs, uptimeMs) / stepUint32(beforeMs, afterMs);
  if (!(share > 0 && share < 1)) {
    const [from, to] = [fromSequence!, toSequence!];
    share = (stepUint32(from, sequence) + 1) / (stepUint32(from, to) + 2);
  }
  return Math.min(Math.max(Math.round(fromUs + (toUs - fromUs) * share), fromUs + 1), toUs - 1);
}

/** A gap of which the numbers from `first` to `last` will never come. */
function partsGivenUp(gap: KeptGap, first: number, last: number): NewGap[] {
  const [from, to] = [gap.fromSequence!, gap.toSequence!];
  const low = stepUint32(from, first) > 0 ? first : from;
  const high = stepUint32(last, to) > 0 ? last : to;
  const momentOf = (sequence: number) => {
    const share = (stepUint32(from, sequence) + 1) / (stepUint32(from, to) + 2);
    return Math.round(gap.fromUs + (gap.toUs - gap.fromUs) * share);
  };
  const uptimeOf = (sequence: number): number | null => {
    if (gap.beforeMs === null || gap.afterMs === null) return null;
    const share = (stepUint32(from, sequence) + 1) / (stepUint32(from, to) + 2);
    return wrapUint32(Math.round(gap.beforeMs + stepUint32(gap.beforeMs, gap.afterMs) * share));
  };
  const shared = { cause: gap.cause, ...(gap.boardId !== undefined && { boardId: gap.boardId }) };
  const boot = gap.boot!;
  const parts: NewGap[] = [];
  if (low !== from) {
    const [end, afterMs] = [momentOf(low), uptimeOf(low) ?? gap.afterMs];
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
    const [start, beforeMs] = [momentOf(high), uptimeOf(high) ?? gap.beforeMs];
    const numbers = { boot, fromSequence: wrapUint32(high + 1), toSequence: to, beforeMs, afterMs: gap.afterMs };
    parts.push({ ...shared, isOpen: true, fromUs: start, toUs: gap.toUs, numbers });
  }
  return parts;
}

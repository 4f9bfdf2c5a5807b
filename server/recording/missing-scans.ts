/**
 * The missing scans of a burn, saved as soon as they are found missing, so that they survive the end of the burn and of
 * the service. A missing scan that arrives is dated by its neighbours: the board's clock gives its position between
 * them, regardless of changes to the burn's own clock in between.
 */

import type { GapEvent, MissedScans, ScanEvent } from '../bridge/bridge.ts';
import { MOST_MISSED, stepUint32, wrapUint32 } from '../bridge/sequence-numbers.ts';
import { readingsOf } from '../readings/scan-readings.ts';
import type { NewGap, Scan, Store, StoredGap } from '../store/store.ts';
import { boardClockIn, datesScan } from './board-clock.ts';
import type { BurnClock } from './burn-clock.ts';
import { endAfter, holds, isEnd, momentIn, partsGivenUp, withinBurn, withoutScan } from './gap-parts.ts';

/** Number and time on the board of a scan, and its moment on the burn's clock. */
export type Dated = Pick<Scan, 'boot' | 'sequence' | 'uptimeMs' | 'elapsedUs'>;

/** A burn that ended within this many periods of the last scan has no missing scans. */
const USUAL_PERIODS = 1.5;

/**
 * Each function must be called inside one transaction with the writes that belong to it; those that change gaps return
 * the burns concerned.
 */
export function createMissingScanLog(store: Store, time: BurnClock) {
  const { gaps, scans } = store;

  function missed(
    burnId: string,
    boardId: string,
    before: Dated | undefined,
    scan: Dated,
    missed: MissedScans | null,
  ): void {
    const stretch = { boardId, fromUs: before?.elapsedUs ?? 0, toUs: scan.elapsedUs, cause: missed?.cause ?? 'lost' };
    if (!before && stretch.toUs <= 0) return;
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

  /** Where an ended burn ends on its clock. */
  function endOf(burnId: string): number {
    return store.documents.get('burn', burnId)?.body.endedElapsedUs ?? Number.POSITIVE_INFINITY;
  }

  /** Scans lost with the previous boot can only date from before the first scan of this one. */
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

  function save(burnId: string, scan: ScanEvent, elapsedUs: number): void {
    const { boot, sequence, deviceUptimeMs: uptimeMs } = scan;
    // The clock of an ended burn does not advance.
    const arrivedUs = time.elapsedAt(burnId, scan.arrivalUs) ?? elapsedUs;
    const stored = { boot, sequence, uptimeMs, elapsedUs, arrivedUs, readings: readingsOf(scan) };
    scans.append(burnId, scan.boardKey, stored);
  }

  /**
   * Stores a scan that is in no gap, between others of a burn that continues: it was given up, or missed under another
   * name.
   */
  function storeScanBetween(scan: ScanEvent, found: readonly StoredGap[]): void {
    const { boardKey, boot, sequence } = scan;
    for (const id of time.running()) {
      if (found.some(({ burnId }) => burnId === id) || scans.find(id, boardKey, { boot, sequence })) continue;
      const { before, after } = scans.around(id, boardKey, { boot, sequence });
      if (!before || !after || after.sequence - before.sequence > MOST_MISSED) continue;
      const numbers = { fromSequence: before.sequence + 1, toSequence: after.sequence - 1 };
      const times = { fromUs: before.elapsedUs, toUs: after.elapsedUs };
      const clock = { beforeMs: before.uptimeMs, afterMs: after.uptimeMs };
      save(id, scan, momentIn({ ...numbers, ...times, ...clock }, sequence, scan.deviceUptimeMs));
    }
  }

  /** What is open at the end of a burn once its board sends again without having been restarted. */
  function goneOn(gap: StoredGap, scan: ScanEvent): NewGap[] {
    const { boardKey: boardId, sequence, deviceUptimeMs: uptimeMs } = scan;
    const { fromUs, toUs, cause, beforeMs } = gap;
    const [boot, fromSequence] = [gap.boot!, gap.fromSequence!];
    const ahead = stepUint32(fromSequence, sequence);
    if (ahead < 0) return [{ ...gap, numbers: { ...gap, boot } }];
    const clock = boardClockIn(scans, gap.burnId, boardId, boot);
    const periodUs = clock?.periodUs ?? Number.POSITIVE_INFINITY;
    // A clock that does not count milliseconds does not give the time since then: the service's clock does, and after a
    // restart of the service the numbers, one per period.
    // numbers, one a period.
    const isReported = clock === undefined || datesScan(clock, { sequence, uptimeMs });
    const readUs = isReported ? momentIn(gap, sequence, uptimeMs) : time.elapsedSinceEnded(gap.burnId, scan.hostUs);
    const isCounted = readUs === undefined;
    const elapsedUs = isCounted ? Math.round(fromUs + (ahead + 1) * periodUs) : Math.max(fromUs + 1, readUs);
    const isInBurn = elapsedUs <= toUs;
    if (isInBurn) save(gap.burnId, scan, elapsedUs);
    const missed = isCounted && !isInBurn ? Math.min(ahead, Math.floor((toUs - fromUs) / periodUs)) : ahead;
    const skipped: NewGap = {
      boardId,
      cause,
      isOpen: true,
      fromUs,
      // Up to this scan, also beyond the end: a scan of it that arrives is dated between two scans whose times are
      // known.
      toUs: isCounted && !isInBurn ? toUs : elapsedUs,
      numbers: {
        boot,
        fromSequence,
        toSequence: wrapUint32(fromSequence + missed - 1),
        beforeMs,
        afterMs: isCounted ? beforeMs : uptimeMs,
      },
    };
    return [...(missed > 0 ? [skipped] : []), ...(isInBurn ? [endAfter(boardId, scan, elapsedUs, toUs, cause)] : [])];
  }

  /**
   * The same after a restart of the board: the scans it had made before are lost, those it made since may belong to the
   * burn.
   */
  function startedAgain(gap: StoredGap, scan: ScanEvent): NewGap[] {
    const { boardKey: boardId, boot, sequence, deviceUptimeMs: uptimeMs } = scan;
    const { fromUs, toUs, cause } = gap;
    const elapsedUs = time.elapsedSinceEnded(gap.burnId, scan.hostUs);
    if (elapsedUs === undefined) return reported(gap);
    const isInBurn = elapsedUs <= toUs;
    if (isInBurn) save(gap.burnId, scan, elapsedUs);
    const gone = { boot, fromSequence: null, toSequence: null, beforeMs: null, afterMs: null };
    const first: NewGap = {
      boardId,
      cause,
      isOpen: true,
      fromUs,
      // Up to this scan, also beyond the end, as above.
      toUs: elapsedUs,
      numbers: {
        boot,
        fromSequence: 0,
        toSequence: wrapUint32(sequence - 1),
        beforeMs: null,
        afterMs: uptimeMs,
      },
    };
    return [
      ...reported(gap).map((each) => ({ ...each, toUs: Math.min(elapsedUs, toUs), numbers: gone })),
      ...(sequence > 0 && sequence <= MOST_MISSED ? [first] : []),
      ...(isInBurn ? [endAfter(boardId, scan, elapsedUs, toUs, cause)] : []),
    ];
  }

  /** What a gap becomes when no more scans are expected. Less than a period after the last scan, no scan is missing. */
  function reported(gap: StoredGap): NewGap[] {
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
    /**
     * A live scan was received that shows others to be missing.
     * @param before the preceding scan of this board in the burn; undefined when there is none
     */
    missed,

    /** A missed scan was received: stores it in every burn in which it is missing. */
    recovered(scan: ScanEvent): string[] {
      const { boardKey, boot, sequence, deviceUptimeMs: uptimeMs } = scan;
      const holding = gaps.ofBoard(boardKey).filter((gap) => gap.boot === boot && holds(gap, sequence));
      for (const gap of holding) {
        const elapsedUs = momentIn(gap, sequence, uptimeMs, scan.clock);
        const endUs = Math.min(gap.toUs, endOf(gap.burnId));
        if (elapsedUs >= 0 && elapsedUs <= endUs) {
          save(gap.burnId, scan, elapsedUs);
          shortenReset(gap.burnId, boardKey, boot, elapsedUs);
        }
        gaps.replace(gap, withoutScan(gap, { sequence, uptimeMs }, elapsedUs, endUs));
      }
      storeScanBetween(scan, holding);
      return holding.map(({ burnId }) => burnId);
    },

    /** Scans will never arrive. */
    givenUp({ boardKey, from, to }: GapEvent): string[] {
      const isOneBoot = from !== null && from.boot === to.boot;
      const first = isOneBoot ? wrapUint32(from.sequence + 1) : 0;
      const last = wrapUint32(to.sequence - 1);
      const touched = gaps
        .ofBoard(boardKey)
        .filter((gap) => gap.isOpen && gap.boot === to.boot && gap.toSequence !== null && gap.fromSequence !== null)
        .filter((gap) => stepUint32(first, gap.toSequence!) >= 0 && stepUint32(gap.fromSequence!, last) >= 0);
      for (const gap of touched) gaps.replace(gap, withinBurn(partsGivenUp(gap, first, last), endOf(gap.burnId)));
      return touched.map(({ burnId }) => burnId);
    },

    /**
     * The burn has ended: the scans that its board made after the last one received are unknown until the board sends
     * again.
     */
    endedAfter(burnId: string, boardId: string, last: Dated, endedUs: number, cause: NewGap['cause']): void {
      if (endedUs <= last.elapsedUs) return;
      const scan = { ...last, deviceUptimeMs: last.uptimeMs };
      gaps.add(burnId, endAfter(boardId, scan, last.elapsedUs, endedUs, cause));
    },

    /** A live scan of a board for which a burn has waited since it ended. */
    receivedAfterEnd(scan: ScanEvent): string[] {
      const waiting = gaps.ofBoard(scan.boardKey).filter((gap) => isEnd(gap) && !time.isRunning(gap.burnId));
      for (const gap of waiting)
        gaps.replace(gap, gap.boot === scan.boot ? goneOn(gap, scan) : startedAgain(gap, scan));
      return waiting.map(({ burnId }) => burnId);
    },

    /** No more scans are expected: reports what is open of a burn (or of one of its boards) as gaps. */
    report(burnId: string, boardId?: string): void {
      for (const gap of gaps.open(burnId)) {
        if (boardId === undefined || gap.boardId === boardId)
          gaps.replace(gap, withinBurn(reported(gap), endOf(burnId)));
      }
    },

    /** A burn that had ended is resumed: scans made in between do not belong to it. */
    reopened(burnId: string): void {
      for (const gap of gaps.open(burnId)) if (isEnd(gap)) gaps.replace(gap, []);
    },
  };
}

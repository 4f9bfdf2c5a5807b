import type { BurnRecord, FaultCode, Gap } from '../../shared/contract/burn-record.ts';
import type { LogEntry, MadeScan } from './log.ts';

/** A stretch of time, see `nowMs`. */
export interface Span {
  fromMs: number;
  toMs: number;
}

/** A gap as reported by the service, and when it was first received. */
export interface ReportedGap {
  gap: Gap;
  atMs: number;
}

export interface BurnToCheck {
  /** Between the answer to its start and the request for its end: scans made then certainly belong to it. */
  span: Span;
  record: BurnRecord;
  gaps: readonly ReportedGap[];
  timeScale: number;
}

export type Verdict = 'stored' | 'told' | 'untold' | 'given up';

export interface Findings {
  /**
   * Of every scan that belongs to the burn: `untold` and `given up` (reported as a gap, although the board held it) are
   * losses.
   */
  verdicts: Map<MadeScan, Verdict>;
  /** Scans of the record that the board never made with this content, or that are duplicates. */
  wrong: string[];
  /** Number of scans in the record, including those outside the span. */
  rows: number;
  /** Neighbours in the record that the board made in the other order. */
  disorder: number;
  /**
   * The largest difference between the position of a scan on the burn's clock and the time that passed since the first
   * one, s.
   */
  worstTimeS: number;
  /** The same for the last scan: the error of the duration of the burn. */
  durationErrorS: number;
}

interface StoredScan {
  boot: number;
  sequence: number;
  elapsedUs: number;
  readings: (number | FaultCode | null)[];
}

/**
 * During an outage a reported gap may be the best knowledge; after this long in touch with the board, its scans count
 * as given up.
 */
const IN_TOUCH_MS = 5_000;
const UINT32 = 2 ** 32;

/**
 * Compares a record with the log of the board.
 * @param inTouch when the service ran and could communicate with the board undisturbed
 */
export function findings(log: readonly LogEntry[], burn: BurnToCheck, inTouch: readonly Span[]): Findings {
  const made = log.filter((entry) => entry.kind === 'scan');
  const byNumber = new Map(made.map((scan) => [scan.number, scan]));
  const wrong: string[] = [];
  const stored = new Map<MadeScan, StoredScan>();
  let disorder = 0;
  let last = -1;
  const rows = storedScans(burn.record);
  for (const row of rows) {
    const scan = byNumber.get(row.readings[0] as number);
    if (!scan || !isSame(scan, row)) wrong.push(`never made: ${JSON.stringify(row)}`);
    else if (stored.has(scan)) wrong.push(`stored twice: ${scan.run}/${scan.sequence}`);
    else {
      stored.set(scan, row);
      if (scan.number < last) disorder++;
      last = scan.number;
    }
  }
  const { fromMs, toMs } = burn.span;
  const own = made.filter(({ atMs }) => atMs > fromMs && atMs < toMs);
  const moments = momentsOf(own, stored, burn);
  const verdicts = new Map<MadeScan, Verdict>();
  for (const [index, scan] of own.entries()) {
    if (stored.has(scan)) verdicts.set(scan, 'stored');
    else verdicts.set(scan, missing(log, scan, moments[index]!, burn, inTouch));
  }
  return { verdicts, wrong, rows: rows.length, disorder, ...timeErrors(stored, burn.timeScale) };
}

function storedScans({ channels, readings }: BurnRecord): StoredScan[] {
  return readings
    .flatMap(({ elapsedUs, boot = [], sequence = [], columns }) => {
      const byIndex = columns.map(({ channelId, counts, faults = [] }) => {
        const index = channels.find(({ id }) => id === channelId)!.index!;
        const named = new Map(faults);
        return { place: index, reading: (row: number) => counts[row] ?? named.get(row) ?? null };
      });
      byIndex.sort((a, b) => a.place - b.place);
      return elapsedUs.map((us, row) => ({
        boot: boot[row]!,
        sequence: sequence[row]!,
        elapsedUs: us,
        readings: byIndex.map(({ reading }) => reading(row)),
      }));
    })
    .sort((a, b) => a.elapsedUs - b.elapsedUs);
}

function isSame(scan: MadeScan, row: StoredScan): boolean {
  return (
    row.boot % UINT32 === scan.boot &&
    row.sequence === scan.sequence &&
    JSON.stringify(row.readings) === JSON.stringify(scan.readings)
  );
}

/**
 * The position of each scan on the burn's clock, µs: as stored, else interpolated by time between its stored
 * neighbours.
 */
function momentsOf(own: readonly MadeScan[], stored: ReadonlyMap<MadeScan, StoredScan>, burn: BurnToCheck): number[] {
  const usPerMs = 1000 * burn.timeScale;
  let before = { atMs: burn.span.fromMs, us: 0 };
  return own.map((scan, index) => {
    const us = stored.get(scan)?.elapsedUs;
    if (us !== undefined) {
      before = { atMs: scan.atMs, us };
      return us;
    }
    const after = own.slice(index).find((each) => stored.has(each));
    if (!after) return before.us + (scan.atMs - before.atMs) * usPerMs;
    const share = (scan.atMs - before.atMs) / (after.atMs - before.atMs);
    return before.us + share * (stored.get(after)!.elapsedUs - before.us);
  });
}

function missing(
  log: readonly LogEntry[],
  scan: MadeScan,
  us: number,
  { gaps, timeScale }: BurnToCheck,
  inTouch: readonly Span[],
): Verdict {
  const around = gaps.filter(({ gap }) => gap.fromUs <= us && us <= gap.toUs);
  if (around.length === 0) return 'untold';
  const reportedMs = Math.min(...around.map(({ atMs }) => atMs));
  const stillMs = inTouch
    .map(({ fromMs, toMs }) => ({ atMs: Math.max(reportedMs, fromMs) + IN_TOUCH_MS / timeScale, toMs }))
    .find(({ atMs, toMs }) => atMs <= toMs)?.atMs;
  return stillMs !== undefined && heldFrom(log, stillMs) <= scan.number ? 'given up' : 'told';
}

/** Number of the oldest scan that the board held at this moment. */
function heldFrom(log: readonly LogEntry[], atMs: number): number {
  return log.findLast((entry) => entry.atMs <= atMs)?.heldFrom ?? 0;
}

function timeErrors(stored: ReadonlyMap<MadeScan, StoredScan>, timeScale: number) {
  const inOrder = [...stored].sort(([a], [b]) => a.number - b.number);
  const errors = inOrder.map(([{ atMs }, { elapsedUs }]) => {
    const [zero, { elapsedUs: zeroUs }] = inOrder[0]!;
    return Math.abs((elapsedUs - zeroUs) / 1e6 - ((atMs - zero.atMs) / 1000) * timeScale);
  });
  return { worstTimeS: Math.max(0, ...errors), durationErrorS: errors.at(-1) ?? 0 };
}

import type { ScanMessage } from '../../firmware-protocol/lines.ts';
import type { BoardCheck, Finding, FindingCode } from '../../shared/contract/board-check.ts';
import { standardDeviation } from '../../shared/statistics/moments.ts';
import { median } from '../../shared/statistics/quantile.ts';
import { countsMilliseconds } from '../bridge/clock-check.ts';
import { stepUint32 } from '../bridge/sequence-numbers.ts';

/** A finding on a rate or a clock needs this much time and this many scans of one start. */
const LEAST_S = 5;
const LEAST_SCANS = 5;
/**
 * A cheap resonator is accurate to 0.5 % (firmware-protocol/README.md); a late arrival adds to that over a short time.
 */
const CLOCK_TOLERANCE = 0.02;
const PERIOD_TOLERANCE = 0.05;
const JITTER_SHARE = 0.1;
const LEAST_JITTER_MS = 30;
/** A start in the first seconds is caused, with many boards, by opening the port. */
const OPENING_S = 5;
/** This many starts within a minute are a loop. */
const LOOP_STARTS = 3;
const LOOP_S = 60;
const MOST_SCANS = 600;

interface SeenScan extends ScanMessage {
  atS: number;
  /** How often the port had been opened by then: what a board sends while it is closed is lost. */
  opening: number;
}

/** Findings on the numbering, the clock and the starts of a board, from its live scans and its hellos. */
export function createScanFindings(nowS: () => number) {
  let scans: SeenScan[] = [];
  let lastBoot: number | undefined;
  const starts: { atS: number; isExpected: boolean }[] = [];
  let expectedFromS = nowS();
  let opening = 0;
  let skipped = 0;
  let repeated = 0;
  let unchangedBoots = 0;
  let firstNumber: number | undefined;
  let changedBoots = 0;

  function begin(boot: number): void {
    const atS = nowS();
    starts.push({ atS, isExpected: atS - expectedFromS <= OPENING_S });
    scans = [];
    lastBoot = boot;
  }

  function noteBoot(boot: number): void {
    if (lastBoot === boot) return;
    if (lastBoot === undefined) lastBoot = boot;
    else {
      changedBoots++;
      begin(boot);
    }
  }

  return {
    /** The port was opened now, which may restart a board. */
    portOpened(): void {
      expectedFromS = nowS();
      opening++;
    },

    hello(boot: number): void {
      noteBoot(boot);
    },

    /** @param hasRefused a line was refused since the scan before: it may be the missing one */
    scan(scan: ScanMessage, hasRefused: boolean): void {
      const { boot, sequence, uptimeMs } = scan;
      noteBoot(boot);
      const last = scans.at(-1);
      const numbers = last ? stepUint32(last.sequence, sequence) : 1;
      const elapsedMs = last ? stepUint32(last.uptimeMs, uptimeMs) : 0;
      if (last && elapsedMs < 0 && numbers < 0) {
        unchangedBoots++;
        begin(boot);
      } else if (last && numbers === 0) repeated++;
      else if (last && numbers < 0) repeated++;
      else if (last && numbers > 1 && !hasRefused && last.opening === opening) skipped += numbers - 1;
      // Only an observed start shows where the numbers begin.
      const isFirst = scans.length === 0 && starts.length > 0;
      if (isFirst && sequence > 0 && uptimeMs < 60_000) firstNumber = sequence;
      else if (isFirst && sequence === 0) firstNumber = undefined;
      scans = [...scans, { ...scan, atS: nowS(), opening }].slice(-MOST_SCANS);
    },

    /** A scan to request again, with enough others after it. */
    olderScan: (): ScanMessage | undefined => (scans.length > 3 ? scans[scans.length - 3] : undefined),

    get count(): number {
      return scans.length;
    },

    rate(statedMs: number | null): BoardCheck['rate'] {
      const first = scans[0];
      const last = scans.at(-1);
      if (!first || !last || scans.length < 3 || last.atS <= first.atS) return undefined;
      const steps = scans.slice(1).flatMap((scan, index) => {
        const before = scans[index]!;
        return before.opening === scan.opening ? (scan.atS - before.atS) * 1000 : [];
      });
      if (steps.length < 2) return undefined;
      const spanS = last.atS - first.atS;
      const isLong = spanS >= LEAST_S && scans.length >= LEAST_SCANS;
      return {
        ...(statedMs !== null && { statedMs }),
        measuredMs: median(steps),
        jitterMs: standardDeviation(steps),
        ...(isLong && { clockRatio: stepUint32(first.uptimeMs, last.uptimeMs) / (spanS * 1000) }),
      };
    },

    findings(statedMs: number | null): Finding[] {
      const rate = this.rate(statedMs);
      return [
        ...ofRate(rate),
        ...ofNumbers({ scans: scans.length, skipped, repeated, firstNumber }),
        ...ofStarts(starts, nowS(), { changedBoots, unchangedBoots }),
      ];
    },
  };
}

function finding(code: FindingCode, level: Finding['level'], params: Finding['params'] = {}): Finding {
  return { code, level, params };
}

function ofRate(rate: BoardCheck['rate']): Finding[] {
  if (!rate || rate.clockRatio === undefined) return [];
  const { statedMs, measuredMs, jitterMs, clockRatio } = rate;
  const findings: Finding[] = [];
  const ofClock = { ratio: clockRatio };
  if (!countsMilliseconds(clockRatio)) findings.push(finding('board/clock-wrong', 'bad', ofClock));
  else if (Math.abs(clockRatio - 1) > CLOCK_TOLERANCE) findings.push(finding('board/clock-off', 'doubtful', ofClock));
  else findings.push(finding('board/clock-good', 'good', ofClock));
  const isUneven = jitterMs > Math.max(LEAST_JITTER_MS, JITTER_SHARE * measuredMs);
  if (isUneven) findings.push(finding('board/jitter', 'doubtful', { measuredMs, jitterMs }));
  if (statedMs === undefined) return findings;
  const isAsStated = Math.abs(measuredMs / statedMs - 1) <= PERIOD_TOLERANCE;
  if (!isAsStated) findings.push(finding('board/period-differs', 'doubtful', { statedMs, measuredMs }));
  else if (!isUneven) findings.push(finding('board/period-kept', 'good', { statedMs, measuredMs, jitterMs }));
  return findings;
}

function ofNumbers(of: {
  scans: number;
  skipped: number;
  repeated: number;
  firstNumber: number | undefined;
}): Finding[] {
  const findings: Finding[] = [];
  if (of.repeated > 0) findings.push(finding('board/numbers-repeated', 'bad', { count: of.repeated }));
  if (of.skipped > 0) findings.push(finding('board/numbers-skipped', 'doubtful', { count: of.skipped }));
  if (of.firstNumber !== undefined) {
    findings.push(finding('board/first-number-not-zero', 'doubtful', { found: of.firstNumber, expected: 0 }));
  }
  if (findings.length > 0 || of.scans < LEAST_SCANS) return findings;
  return [finding('board/numbering-good', 'good', { count: of.scans })];
}

function ofStarts(
  starts: readonly { atS: number; isExpected: boolean }[],
  nowS: number,
  { changedBoots, unchangedBoots }: { changedBoots: number; unchangedBoots: number },
): Finding[] {
  const findings: Finding[] = [];
  const recent = starts.filter(({ atS }) => nowS - atS <= LOOP_S);
  const unasked = recent.filter(({ isExpected }) => !isExpected);
  if (recent.length >= LOOP_STARTS && unasked.length > 0) {
    const seconds = (recent.at(-1)!.atS - recent[0]!.atS) / (recent.length - 1);
    findings.push(finding('board/reset-loop', 'bad', { count: recent.length, seconds }));
  } else if (unasked.length > 0) {
    findings.push(finding('board/restarts', 'doubtful', { count: unasked.length }));
  }
  if (unchangedBoots > 0) findings.push(finding('board/boot-unchanged', 'bad', { count: unchangedBoots }));
  else if (changedBoots > 0) findings.push(finding('board/boot-changes', 'good'));
  return findings;
}

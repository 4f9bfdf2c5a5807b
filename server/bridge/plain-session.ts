import type { PlainFormat } from '../../shared/contract/boards.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { type PlainLine, plainScale, readPlainLine } from '../../shared/plain-lines/read-line.ts';
import { storedUnits } from '../../shared/plain-lines/stored-units.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Clock } from '../base/clock.ts';
import type { BoardLog, ReceivedScan } from './board-log.ts';
import type { Answer } from './command-queue.ts';
import type { BoardChannel } from './events.ts';
import type { ReceivedLine } from './line-reader.ts';
import { wrapUint32 } from './sequence-numbers.ts';
import type { Session, SessionFacts, SessionHost } from './session.ts';
import { silenceLimitMs } from './silence-limit.ts';

/**
 * The usual period is the median of the latest intervals between lines: of at most so many, and of at least so many to
 * be reliable.
 */
const MOST_INTERVALS = 15;
const FEWEST_INTERVALS = 5;
/** A time between lines beyond this many periods means that lines are missing. */
const HOLE_PERIODS = 2.5;
/**
 * Lines of one scan follow each other within half a period; the limit in milliseconds applies before the period is
 * known, and as the maximum.
 */
const SCAN_PERIODS = 0.5;
const LONGEST_SCAN_MS = 2_000;

type DataLine = Extract<PlainLine, { kind: 'data' }>;

/** The lines received so far of one scan. */
interface OpenScan {
  row: DataLine;
  /** Arrival of its first line, on the host's clock. */
  atMs: number;
}

/**
 * A board that only prints numbers. It has no identity, no sequence and perhaps no clock; the host supplies them: each
 * connection is a boot, scans are numbered as they arrive, and a pause much longer than usual skips numbers, so that
 * missing scans count as missing here as well. A board that prints one value per line yields a scan when all its labels
 * have arrived, when one is repeated, or when no more arrive in time.
 */
export class PlainSession implements Session {
  readonly #clock: Clock;
  readonly #format: PlainFormat;
  readonly #host: SessionHost;
  readonly #log: BoardLog;
  #boot = 0;
  #sequence = -1;
  #lastTimeMs: number | null = null;
  #lastMs: number | null = null;
  #intervalsMs: number[] = [];
  #open: OpenScan | null = null;
  #cancelWait: () => void = () => {};

  constructor(clock: Clock, format: PlainFormat, host: SessionHost, boardKey: string) {
    this.#clock = clock;
    this.#format = format;
    this.#host = host;
    this.#log = host.logOf(boardKey);
  }

  opened(): void {
    void this.#host.claim(this.#log.boardKey);
    this.#log.connected(null);
    this.#beginBoot();
  }

  lines(lines: ReceivedLine[], arrivalUs: number): 'scan' | null {
    const rows: DataLine[] = [];
    let count = 0;
    for (const line of lines) {
      const row = this.#read(line);
      if (row) {
        count++;
        rows.push(...this.#completedBy(row, Math.floor(arrivalUs / 1000)));
      } else this.#host.counts.discardedBytes += line.bytes;
    }
    this.#host.counts.lines += count;
    if (rows.length > 0) this.#log.receive(this.#scansOf(rows, arrivalUs));
    this.#waitForRest(arrivalUs);
    return count > 0 ? 'scan' : null;
  }

  ended(): void {
    this.#closeScan();
    this.#log.disconnected();
  }

  stop(): void {
    this.#closeScan();
  }

  describe(): void {}
  release(): void {}

  silenceMs(): number {
    return silenceLimitMs('plain', this.#periodMs() ?? 0, this.#clock.scale);
  }

  command(): Promise<Answer> {
    return Promise.resolve({ kind: 'refused', command: '?', reason: 'not-supported' });
  }

  log(): BoardLog {
    return this.#log;
  }

  facts(): SessionFacts {
    return {
      identityStored: false,
      name: null,
      firmware: null,
      periodMs: this.#periodMs(),
      repeatDepth: 0,
      channels: this.channels(),
      problem: null,
    };
  }

  channels(): BoardChannel[] {
    return this.#format.columns.map(({ name, unit, decimals }, index) => ({
      index,
      quantity: QUANTITY_OF[storedUnits[unit].unit],
      unit,
      scale: plainScale({ decimals }),
      probe: null,
      resolution: null,
      form: { kind: 'value' },
      label: name,
    }));
  }

  #read(line: ReceivedLine): DataLine | null {
    // Without a checksum the end of a line cut in two looks like any other number: the first line is ignored.
    if (line.joinedMidLine) return null;
    if (line.cut) {
      this.#host.counts.badLines++;
      return null;
    }
    const row = readPlainLine(Buffer.from(line.text, 'latin1').toString('utf8'), this.#format);
    if (row.kind === 'data') return row;
    this.#host.counts.badLines++;
    return null;
  }

  /**
   * Returns the scans that a line completes: the one before it, where it begins another, and its own, where nothing is
   * missing any more.
   */
  #completedBy(row: DataLine, atMs: number): DataLine[] {
    const done: DataLine[] = [];
    const period = this.#periodMs();
    const isLate = this.#open !== null && period !== null && atMs - this.#open.atMs > SCAN_PERIODS * period;
    if (this.#open && (isLate || overlap(this.#open.row, row))) {
      if (hasReading(this.#open.row)) done.push(this.#open.row);
      this.#open = null;
    }
    this.#open = { row: this.#open ? merged(this.#open.row, row) : row, atMs: this.#open?.atMs ?? atMs };
    if (this.#isComplete(this.#open.row)) {
      done.push(this.#open.row);
      this.#open = null;
    }
    return done;
  }

  #isComplete({ timeMs, counts, faults }: DataLine): boolean {
    const hasTime = this.#format.timeKey === undefined || timeMs !== null;
    return hasTime && counts.every((count, index) => count !== null || faults[index] !== null);
  }

  #waitForRest(arrivalUs: number): void {
    this.#cancelWait();
    this.#cancelWait = () => {};
    if (!this.#open) return;
    const waitMs = LONGEST_SCAN_MS * this.#clock.scale;
    this.#cancelWait = this.#clock.setTimer(waitMs, () => this.#closeScan(arrivalUs));
  }

  /** Completes a scan with the values received, though the rest of it is missing. */
  #closeScan(arrivalUs?: number): void {
    this.#cancelWait();
    this.#cancelWait = () => {};
    const open = this.#open;
    if (!open) return;
    this.#open = null;
    if (!hasReading(open.row)) return;
    this.#log.receive(this.#scansOf([open.row], arrivalUs ?? open.atMs * 1000));
  }

  #scansOf(rows: DataLine[], arrivalUs: number): ReceivedScan[] {
    const arrivalMs = Math.floor(arrivalUs / 1000);
    const period = this.#periodMs();
    const skipped = this.#hasClock() ? 0 : this.#skippedBefore(rows.length, arrivalMs, period);
    return rows.map((row, i) => {
      // Lines that were buffered together were printed one period apart, the last of them just now.
      const uptimeMs =
        row.timeMs ?? this.#untoldTimeMs(arrivalMs - Math.round((rows.length - 1 - i) * (period ?? 0)), period);
      if (row.timeMs !== null) this.#followBoardClock(row.timeMs);
      else if (i === 0) this.#sequence += skipped;
      this.#sequence++;
      return {
        boot: this.#boot,
        sequence: wrapUint32(this.#sequence),
        uptimeMs: wrapUint32(uptimeMs),
        repeated: false,
        body: `${uptimeMs} ${row.counts.join(' ')}`,
        arrivalUs,
        counts: row.counts,
        faults: row.faults,
      };
    });
  }

  #hasClock(): boolean {
    return this.#format.timeColumn !== undefined || this.#format.timeKey !== undefined;
  }

  /** The time of a scan whose lines contain none: on the board's clock, where it has one, else on the host's. */
  #untoldTimeMs(hostMs: number, period: number | null): number {
    return this.#hasClock() && this.#lastTimeMs !== null ? this.#lastTimeMs + (period ?? 0) : hostMs;
  }

  #skippedBefore(count: number, arrivalMs: number, period: number | null): number {
    const elapsed = this.#lastMs === null ? null : arrivalMs - this.#lastMs;
    this.#lastMs = arrivalMs;
    if (elapsed === null) return 0;
    if (period !== null && elapsed > HOLE_PERIODS * period) return Math.max(0, Math.round(elapsed / period) - count);
    for (let i = 0; i < count; i++) this.#noteInterval(elapsed / count);
    return 0;
  }

  /** With a time column the board's own clock shows a restart (it decreases) and missing lines (it jumps ahead). */
  #followBoardClock(timeMs: number): void {
    const before = this.#lastTimeMs;
    this.#lastTimeMs = timeMs;
    if (before === null) return;
    const elapsed = timeMs - before;
    if (elapsed < 0) {
      this.#beginBoot();
      this.#lastTimeMs = timeMs;
      return;
    }
    const period = this.#periodMs();
    if (period !== null && elapsed > HOLE_PERIODS * period) this.#sequence += Math.round(elapsed / period) - 1;
    else this.#noteInterval(elapsed);
  }

  #beginBoot(): void {
    this.#boot = Math.max(this.#boot, this.#log.newestBoot ?? 0) + 1;
    this.#sequence = -1;
    this.#lastTimeMs = null;
    this.#lastMs = null;
  }

  #noteInterval(ms: number): void {
    this.#intervalsMs.push(ms);
    if (this.#intervalsMs.length > MOST_INTERVALS) this.#intervalsMs.shift();
  }

  #periodMs(): number | null {
    if (this.#intervalsMs.length < FEWEST_INTERVALS) return null;
    const periodMs = median(this.#intervalsMs);
    return periodMs > 0 ? periodMs : null;
  }
}

function hasReading({ counts, faults }: DataLine): boolean {
  return counts.some((count, index) => count !== null || faults[index] !== null);
}

/** Whether two lines have a label in common: then they belong to two scans. */
function overlap(a: DataLine, b: DataLine): boolean {
  const has = ({ counts, faults }: DataLine, index: number) => counts[index] !== null || faults[index] !== null;
  return (a.timeMs !== null && b.timeMs !== null) || a.counts.some((_, index) => has(a, index) && has(b, index));
}

function merged(a: DataLine, b: DataLine): DataLine {
  return {
    kind: 'data',
    timeMs: a.timeMs ?? b.timeMs,
    counts: a.counts.map((count, index) => count ?? b.counts[index]!),
    faults: a.faults.map((fault, index) => fault ?? b.faults[index]!),
  };
}

const QUANTITY_OF: Record<Channel['unit'], string> = {
  Cel: 'temperature',
  uV: 'voltage',
  Ohm: 'resistance',
  kg: 'mass',
  Pa: 'pressure',
  '%': 'fraction',
  '1': 'number',
};

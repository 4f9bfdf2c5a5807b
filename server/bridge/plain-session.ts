import type { PlainFormat } from '../../shared/contract/boards.ts';
import { PLAIN_SCALE, type PlainLine, readPlainLine } from '../../shared/plain-lines/read-line.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Clock } from '../base/clock.ts';
import type { BoardLog, ReceivedScan } from './board-log.ts';
import type { Answer } from './command-queue.ts';
import type { ReceivedLine } from './line-reader.ts';
import { wrapUint32 } from './sequence-numbers.ts';
import type { Session, SessionFacts, SessionHost } from './session.ts';
import { silenceLimitMs } from './silence-limit.ts';

/** Intervals between lines that the usual period is taken from (their median), and how many make it trustworthy. */
const MOST_INTERVALS = 15;
const FEWEST_INTERVALS = 5;
/** Time between lines beyond this many periods means that lines are missing. */
const HOLE_PERIODS = 2.5;

type DataLine = Extract<PlainLine, { kind: 'data' }>;

/**
 * A board that only prints numbers in columns. It has no identity, no sequence and perhaps no clock; the host supplies them:
 * each connection is a boot, lines are numbered as they come, and a pause much longer than usual leaves numbers out, so that
 * what is missing is missing here as well.
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
    for (const line of lines) {
      const row = this.#read(line);
      if (row) rows.push(row);
      else this.#host.counts.discardedBytes += line.bytes;
    }
    this.#host.counts.lines += rows.length;
    if (rows.length === 0) return null;
    this.#log.receive(this.#scansOf(rows, arrivalUs));
    return 'scan';
  }

  ended(): void {
    this.#log.disconnected();
  }

  stop(): void {}
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
      channels: this.#format.columns.map(({ name, unit }, index) => ({
        index,
        quantity: QUANTITY_OF[unit],
        unit,
        scale: PLAIN_SCALE,
        probe: null,
        resolution: null,
        form: { kind: 'value' },
        label: name,
      })),
      problem: null,
    };
  }

  #read(line: ReceivedLine): DataLine | null {
    // Without a checksum the end of a line cut in two is a number like any other: the first line is not believed.
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

  #scansOf(rows: DataLine[], arrivalUs: number): ReceivedScan[] {
    const arrivalMs = Math.floor(arrivalUs / 1000);
    const period = this.#periodMs();
    const skipped = this.#format.timeColumn === undefined ? this.#skippedBefore(rows.length, arrivalMs, period) : 0;
    return rows.map((row, i) => {
      // Lines that waited together were printed one period apart, the last of them just now.
      const uptimeMs = row.timeMs ?? arrivalMs - Math.round((rows.length - 1 - i) * (period ?? 0));
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

  #skippedBefore(count: number, arrivalMs: number, period: number | null): number {
    const elapsed = this.#lastMs === null ? null : arrivalMs - this.#lastMs;
    this.#lastMs = arrivalMs;
    if (elapsed === null) return 0;
    if (period !== null && elapsed > HOLE_PERIODS * period) return Math.max(0, Math.round(elapsed / period) - count);
    for (let i = 0; i < count; i++) this.#noteInterval(elapsed / count);
    return 0;
  }

  /** With a time column the board's own clock tells a restart (it goes back) and missing lines (it leaps). */
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

const QUANTITY_OF: Record<PlainFormat['columns'][number]['unit'], string> = {
  Cel: 'temperature',
  uV: 'voltage',
  Ohm: 'resistance',
  kg: 'mass',
  Pa: 'pressure',
  '%': 'fraction',
  '1': 'number',
};

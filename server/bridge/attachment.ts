import type { HostCommand } from '../../firmware-protocol/lines.ts';
import type { PlainFormat } from '../../shared/contract/boards.ts';
import { USUAL_BAUD_RATE } from '../../shared/contract/usual-baud-rate.ts';
import type { Clock } from '../base/clock.ts';
import type { BoardLog, ReceivedScan } from './board-log.ts';
import type { Answer } from './command-queue.ts';
import { Connection, type ConnectionHandler } from './connection.ts';
import type { ReaderPhase } from './connection-state.ts';
import type { BoardChannel, BoardState, GapCause, LineEvent } from './events.ts';
import type { Carrier } from './identity-claims.ts';
import type { ReceivedLine } from './line-reader.ts';
import { PlainSession } from './plain-session.ts';
import type { PortFactory } from './port.ts';
import type { BoardProblem } from './problems.ts';
import { PROTOCOL_LINE_BYTES, ProtocolSession } from './protocol-session.ts';
import type { LineCounts, Session } from './session.ts';

export interface AttachRequest {
  /** Device name, for example /dev/ttyUSB0, COM3 or a pseudo-terminal. */
  path: string;
  mode: 'protocol' | 'plain';
  /** 115200 when omitted. */
  baudRate?: number;
  /** How a plain board lays out its numbers; required in plain mode. */
  plain?: PlainFormat;
  /**
   * Identity that the host stores for a board that cannot store one or has no protocol; a new one is made when omitted.
   */
  boardKey?: string;
}

/** What an attachment uses of the bridge. */
export interface AttachmentHost {
  clock: Clock;
  ports: PortFactory;
  newId(): string;
  logOf(boardKey: string, attachment: Attachment): BoardLog;
  claim(boardKey: string, carrier: Carrier): Promise<'granted' | 'shared'>;
  renamed(from: string, to: string, scans: readonly ReceivedScan[]): void;
  received(line: LineEvent): void;
  onIdentity(attachment: Attachment): void;
  phaseChanged(attachment: Attachment, phase: ReaderPhase): void;
  changed(attachment: Attachment): void;
}

const PLAIN_LINE_BYTES = 1024;
const MOST_RECENT_LINES = 24;

/** One attached port: the connection below, the session above, and the state of both that is published. */
export class Attachment implements Carrier, ConnectionHandler {
  readonly id: string;
  readonly request: AttachRequest;
  readonly #host: AttachmentHost;
  readonly #connection: Connection;
  readonly #session: Session;
  readonly #counts: LineCounts = { lines: 0, badChecksum: 0, badLines: 0, discardedBytes: 0 };
  readonly #recentLines: string[] = [];
  #disconnects = 0;
  #lastLineUs: number | null = null;
  #lastBytesUs: number | null = null;

  constructor(id: string, request: AttachRequest, host: AttachmentHost) {
    this.id = id;
    this.request = request;
    this.#host = host;
    const { path, mode, plain } = request;
    const isPlain = mode === 'plain';
    const baudRate = request.baudRate ?? USUAL_BAUD_RATE;
    this.#connection = new Connection(
      host.clock,
      host.ports,
      {
        path,
        baudRate,
        maxLineBytes: isPlain ? PLAIN_LINE_BYTES : PROTOCOL_LINE_BYTES,
        mayEndAtReturn: isPlain,
        textProblem: isPlain ? 'not-plain' : 'not-protocol',
      },
      this,
    );
    const boardKey = request.boardKey ?? host.newId();
    const sessionHost = {
      path,
      counts: this.#counts,
      write: (text: string) => this.#connection.write(text),
      newId: () => host.newId(),
      logOf: (key: string) => host.logOf(key, this),
      claim: (key: string) => host.claim(key, this),
      renamed: (from: string, to: string, scans: readonly ReceivedScan[]) => host.renamed(from, to, scans),
      changed: () => host.changed(this),
    };
    this.#session = isPlain
      ? new PlainSession(host.clock, plain!, sessionHost, boardKey)
      : new ProtocolSession(host.clock, sessionHost, boardKey);
  }

  start(): void {
    this.#connection.start();
  }

  /** Releases the board and the port. */
  stop(): Promise<void> {
    this.#session.stop();
    return this.#connection.stop();
  }

  /** Closes the port temporarily, as if the cable were out; resolves when it is free. */
  pause(): Promise<void> {
    return this.#connection.stop();
  }

  connected(): boolean {
    return this.#connection.phase === 'waiting' || this.#connection.phase === 'live';
  }

  release(): void {
    this.#session.release();
    this.#host.changed(this);
  }

  command(command: HostCommand): Promise<Answer> {
    if (!this.connected() && this.#connection.phase !== 'silent') return Promise.resolve({ kind: 'notConnected' });
    return this.#session.command(command);
  }

  /** See `BoardLog.note`. */
  note(cause: GapCause): void {
    this.#session.log()?.note(cause);
  }

  opened(): void {
    this.#session.opened();
  }

  lines(lines: ReceivedLine[], arrivalUs: number): 'scan' | 'answer' | null {
    for (const line of lines.slice(-MOST_RECENT_LINES)) {
      if (!line.joinedMidLine) this.#recentLines.push(Buffer.from(line.text, 'latin1').toString('utf8'));
    }
    if (this.#recentLines.length > MOST_RECENT_LINES) {
      this.#recentLines.splice(0, this.#recentLines.length - MOST_RECENT_LINES);
    }
    for (const { text, cut, joinedMidLine } of lines) {
      this.#host.received({ id: this.id, text, cut, joinedMidLine, arrivalUs });
    }
    const received = this.#session.lines(lines, arrivalUs);
    if (received) this.#lastLineUs = arrivalUs;
    if (received === 'scan') this.#host.onIdentity(this);
    return received;
  }

  bytes(arrivalUs: number): void {
    this.#lastBytesUs = arrivalUs;
  }

  describe(): void {
    this.#session.describe();
  }

  ended(lostBytes: number): void {
    this.#counts.discardedBytes += lostBytes;
    this.#disconnects++;
    this.#session.ended();
  }

  changed(phase: ReaderPhase): void {
    if (phase === 'silent') this.note('silent');
    this.#host.phaseChanged(this, phase);
  }

  silenceMs(): number {
    return this.#session.silenceMs();
  }

  boardKey(): string | null {
    return this.#session.log()?.boardKey ?? null;
  }

  channels(): BoardChannel[] {
    return this.#session.channels();
  }

  state(): BoardState {
    const log = this.#session.log();
    const { problem, ...facts } = this.#session.facts();
    const discardedBytes = this.#counts.discardedBytes + this.#connection.swallowedBytes;
    const logCounts = log?.counts ?? { duplicates: 0, missing: 0, recovered: 0, resets: 0 };
    return {
      id: this.id,
      path: this.request.path,
      mode: this.request.mode,
      baudRate: this.request.baudRate ?? USUAL_BAUD_RATE,
      state: this.#connection.phase,
      boardKey: log?.boardKey ?? null,
      ...facts,
      boot: log?.newestBoot ?? null,
      problem: this.#problemOf(problem ?? clockProblem(log, this.request.path)),
      counters: { ...this.#counts, ...logCounts, discardedBytes, disconnects: this.#disconnects },
      recentLines: [...this.#recentLines],
      lastLineUs: this.#lastLineUs,
      lastBytesUs: this.#lastBytesUs,
    };
  }

  /**
   * A problem of the port takes precedence, unless the session has a more specific one for lines that cannot be parsed.
   */
  #problemOf(ofSession: BoardProblem | null): BoardProblem | null {
    const ofPort = this.#connection.problem;
    return ofPort === null || (ofPort.code === 'not-protocol' && ofSession) ? ofSession : ofPort;
  }
}

function clockProblem(log: BoardLog | null, path: string): BoardProblem | null {
  if (log?.clockVerdict !== 'wrong') return null;
  return { code: 'wrong-clock', params: { path, ratio: log.clockRatio ?? 0 } };
}

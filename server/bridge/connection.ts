import type { Clock } from '../base/clock.ts';
import { next, type ReaderEvent, type ReaderPhase, type ReaderState } from './connection-state.ts';
import { LineReader, type ReceivedLine } from './line-reader.ts';
import type { Port, PortFactory } from './port.ts';
import { classifyPortError } from './port-errors.ts';
import type { BoardProblem } from './problems.ts';
import { TextQuality } from './text-quality.ts';

export interface ConnectionSettings {
  path: string;
  baudRate: number;
  maxLineBytes: number;
  /** Whether a carriage return alone may end a line. */
  mayEndAtReturn: boolean;
  /** What text without a valid line means on this port. */
  textProblem: 'not-protocol' | 'not-plain';
}

/** What a connection reports to the code that parses the lines. */
export interface ConnectionHandler {
  opened(): void;
  /**
   * Lines that arrived together.
   * @returns `scan` when readings were among them, `answer` when another valid line was
   */
  lines(lines: ReceivedLine[], arrivalUs: number): 'scan' | 'answer' | null;
  /** Bytes arrived, readable or not. */
  bytes(arrivalUs: number): void;
  describe(): void;
  /** The connection ended; `lostBytes` of it were cut off or belonged to a line that never ended. */
  ended(lostBytes: number): void;
  /** The phase or the problem changed. */
  changed(phase: ReaderPhase): void;
  /** How long a live board of this kind may be quiet, in milliseconds. */
  silenceMs(): number;
}

/** Limits in milliseconds of real time: cables and devices do not speed up with the clock. */
const OPEN_MS = 10_000;
const ASK_MS = 5_000;
const PRESENCE_MS = 1_000;
const RETRY_FIRST_MS = 250;
const RETRY_MOST_MS = 5_000;

/** State of one opening of the port; it ends with it. */
interface Link {
  port: Port | null;
  reader: LineReader;
  cancelPresence: () => void;
}

/**
 * Keeps one port connected for as long as it is attached: carries out the actions of the reader's state machine and
 * passes events to it. Each opening gets a new port, a new line reader and its own state; events of an old opening are
 * ignored.
 */
export class Connection {
  readonly #clock: Clock;
  readonly #ports: PortFactory;
  readonly #settings: ConnectionSettings;
  readonly #handler: ConnectionHandler;
  readonly #quality = new TextQuality();
  #state: ReaderState = { phase: 'idle' };
  #life: Link | null = null;
  #closing: Promise<void> = Promise.resolve();
  readonly #events: ReaderEvent[] = [];
  #cancelWait: () => void = () => {};
  #dueUs = 0;
  #problem: BoardProblem | null = null;
  #toldProblem: BoardProblem | null = null;

  constructor(clock: Clock, ports: PortFactory, settings: ConnectionSettings, handler: ConnectionHandler) {
    this.#clock = clock;
    this.#ports = ports;
    this.#settings = settings;
    this.#handler = handler;
  }

  get phase(): ReaderPhase {
    return this.#state.phase;
  }

  /** Bytes of this connection discarded from lines longer than the limit. */
  get swallowedBytes(): number {
    return this.#life?.reader.swallowedBytes ?? 0;
  }

  /** What is wrong with the port or with what arrives from it; null while all is well, or nothing is known yet. */
  get problem(): BoardProblem | null {
    return this.#problem;
  }

  start(): void {
    this.#step({ kind: 'start' });
  }

  /** Closes the port for good; resolves when it is closed. */
  stop(): Promise<void> {
    this.#step({ kind: 'stop' });
    return this.#closing;
  }

  /** Sends text to the board; what cannot be sent is dropped, which shows as a missing answer. */
  write(text: string): void {
    this.#life?.port?.write(Buffer.from(text, 'latin1')).catch(() => {});
  }

  /**
   * Processes one event. Events that occur during a step (a port may answer within the call that writes to it) are
   * queued.
   */
  #step(event: ReaderEvent): void {
    this.#events.push(event);
    if (this.#events.length > 1) return;
    while (this.#events.length > 0) {
      this.#take(this.#events[0]!);
      this.#events.shift();
    }
  }

  #take(event: ReaderEvent): void {
    const before = this.#state;
    const realMs = this.#clock.scale;
    const { state, actions } = next(before, event, {
      openMs: OPEN_MS * realMs,
      askMs: ASK_MS * realMs,
      silenceMs: this.#handler.silenceMs(),
      retryFirstMs: RETRY_FIRST_MS * realMs,
      retryMostMs: RETRY_MOST_MS * realMs,
    });
    this.#state = state;
    if (state.phase === 'idle') this.#cancelWait();
    for (const action of actions) {
      if (action.kind === 'open') this.#open();
      else if (action.kind === 'close') this.#close();
      else if (action.kind === 'describe') this.#handler.describe();
      else this.#wait(action.ms);
    }
    if (state.phase !== before.phase || this.#problem !== this.#toldProblem) {
      this.#toldProblem = this.#problem;
      this.#handler.changed(state.phase);
    }
  }

  /**
   * A live board renews its wait with every line: the running timer is not restarted, and checks again when it fires
   * early.
   */
  #wait(ms: number): void {
    const dueUs = this.#clock.monotonicUs() + ms * 1000;
    const later = dueUs >= this.#dueUs && this.#state.phase === 'live';
    this.#dueUs = dueUs;
    if (later) return;
    this.#cancelWait();
    this.#arm(ms);
  }

  #arm(ms: number): void {
    this.#cancelWait = this.#clock.setTimer(ms, () => {
      const leftUs = this.#dueUs - this.#clock.monotonicUs();
      if (leftUs > 500) return this.#arm(leftUs / 1000);
      this.#dueUs = 0;
      this.#judge();
      this.#step({ kind: 'timeUp' });
    });
  }

  /** Nothing valid arrived in time: classifies what arrived instead. */
  #judge(): void {
    const { phase } = this.#state;
    if (phase !== 'waiting' && phase !== 'live' && phase !== 'silent') return;
    const code = { silent: 'board-silent', noise: 'wrong-speed', text: this.#settings.textProblem } as const;
    this.#problem = { code: code[this.#quality.classify()], params: this.#params() };
  }

  #open(): void {
    const { maxLineBytes, mayEndAtReturn } = this.#settings;
    const reader = new LineReader(maxLineBytes, mayEndAtReturn);
    const link: Link = { port: null, reader, cancelPresence: () => {} };
    this.#life = link;
    // An old port of the same path may still be closing; the new one would get a busy error.
    this.#closing
      .then(() => this.#ports.open(this.#settings.path, this.#settings.baudRate))
      .then(
        (port) => (this.#life === link ? this.#opened(link, port) : void port.close()),
        (error: unknown) => {
          if (this.#life === link) this.#openFailed(error instanceof Error ? error.message : String(error));
        },
      );
  }

  #opened(link: Link, port: Port): void {
    link.port = port;
    port.onClose((end) => {
      if (end.kind === 'lost') this.#lost(link, end.raw);
      else if (this.#life === link) this.#step({ kind: 'ended' });
    });
    port.onData((chunk) => {
      if (this.#life === link) this.#received(link, chunk);
    });
    this.#problem = null;
    this.#quality.reset();
    this.#watchPresence(link, port);
    this.#handler.opened();
    this.#step({ kind: 'opened' });
  }

  #lost(link: Link, raw: string): void {
    if (this.#life !== link) return;
    this.#problem = this.#portProblem(raw, 'port-missing');
    this.#step({ kind: 'ended' });
  }

  /** Checks whether the device is present: unplugging is not always reported. */
  #watchPresence(link: Link, port: Port): void {
    if (!port.isPresent) return;
    link.cancelPresence = this.#clock.setTimer(PRESENCE_MS * this.#clock.scale, () => {
      void port.isPresent!().then((present) => {
        if (this.#life !== link) return;
        if (present) this.#watchPresence(link, port);
        else this.#lost(link, 'the device has gone');
      });
    });
  }

  #openFailed(raw: string): void {
    this.#life = null;
    this.#problem = this.#portProblem(raw, 'port-unknown');
    this.#step({ kind: 'openFailed' });
  }

  #received(link: Link, chunk: Uint8Array): void {
    const arrivalUs = this.#clock.monotonicUs();
    this.#quality.add(chunk);
    this.#handler.bytes(arrivalUs);
    const lines = link.reader.push(chunk);
    if (lines.length === 0) return;
    const received = this.#handler.lines(lines, arrivalUs);
    // Answers show that the board is there; only readings show that it measures.
    if (received === 'scan' || (received === 'answer' && this.#state.phase === 'waiting')) {
      this.#problem = null;
      this.#quality.reset();
      this.#step({ kind: 'frame' });
    }
  }

  #close(): void {
    const link = this.#life;
    this.#life = null;
    if (!link?.port) return;
    link.cancelPresence();
    this.#closing = link.port.close();
    this.#handler.ended(link.reader.swallowedBytes + link.reader.openLineBytes);
  }

  /** A connection that broke with an unknown error text has most likely been unplugged. */
  #portProblem(raw: string, otherwise: 'port-missing' | 'port-unknown'): BoardProblem {
    const code = classifyPortError(raw);
    return { code: code === 'port-unknown' ? otherwise : code, params: this.#params(), raw };
  }

  #params(): Record<string, string | number> {
    return { path: this.#settings.path, baudRate: this.#settings.baudRate };
  }
}

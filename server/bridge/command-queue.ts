import { encodeLine, type HostCommand, type OkMessage, type RefusedMessage } from '../../firmware-protocol/lines.ts';
import type { Clock } from '../base/clock.ts';

export type Answer =
  | OkMessage
  | RefusedMessage
  /** Sent several times without an answer. */
  | { kind: 'noAnswer' }
  /** The connection ended first. */
  | { kind: 'notConnected' };

const ANSWER_MS = 2000;
const MOST_TRIES = 3;

interface Entry {
  command: HostCommand;
  tries: number;
  resolve: (answer: Answer) => void;
}

/**
 * Commands to one board over one connection, one at a time: a board may have little memory, and an answer contains only
 * the name of its command. A command without an answer is sent again; every command is idempotent.
 */
export class CommandQueue {
  readonly #clock: Clock;
  readonly #write: (text: string) => void;
  readonly #queue: Entry[] = [];
  #cancelTimer: () => void = () => {};
  #closed = false;

  constructor(clock: Clock, write: (text: string) => void) {
    this.#clock = clock;
    this.#write = write;
  }

  /** Whether a command of this kind is waiting for its answer or its turn. */
  isAsking(kind: HostCommand['kind']): boolean {
    return this.#queue.some((entry) => entry.command.kind === kind);
  }

  /** Sends a command when its turn comes. Never rejects. */
  send(command: HostCommand): Promise<Answer> {
    if (this.#closed) return Promise.resolve({ kind: 'notConnected' });
    return new Promise((resolve) => {
      this.#queue.push({ command, tries: 0, resolve });
      if (this.#queue.length === 1) this.#transmit();
    });
  }

  take(answer: OkMessage | RefusedMessage): void {
    const entry = this.#queue[0];
    if (!entry) return;
    if (answer.kind === 'refused' && answer.reason === 'bad-checksum') {
      // The command was damaged in transmission; the board cannot know which one it was.
      if (entry.tries < MOST_TRIES) this.#transmit();
      else this.#settle({ kind: 'noAnswer' });
      return;
    }
    if (answer.command === entry.command.kind) this.#settle(answer);
  }

  close(): void {
    this.#closed = true;
    this.#cancelTimer();
    for (const entry of this.#queue.splice(0)) entry.resolve({ kind: 'notConnected' });
  }

  #transmit(): void {
    const entry = this.#queue[0]!;
    entry.tries++;
    this.#cancelTimer();
    this.#cancelTimer = this.#clock.setTimer(ANSWER_MS * this.#clock.scale, () => {
      if (entry.tries < MOST_TRIES) this.#transmit();
      else this.#settle({ kind: 'noAnswer' });
    });
    this.#write(`${encodeLine(entry.command)}\n`);
  }

  #settle(answer: Answer): void {
    this.#cancelTimer();
    const entry = this.#queue.shift()!;
    if (this.#queue.length > 0) this.#transmit();
    entry.resolve(answer);
  }
}

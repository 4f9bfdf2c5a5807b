/**
 * The board's end of protocol 1: parses the host's lines, and answers each as specified. The caller provides what the
 * board measures, stores and does.
 */
import {
  type BadLine,
  type BoardMessage,
  decodeLine,
  type HostCommand,
  MAX_COMMAND_BYTES,
  type ScanMessage,
} from '../../firmware-protocol/lines.ts';

type Refused = Extract<BoardMessage, { kind: 'refused' }>;

export interface WiredBoard {
  boot(): number;
  /** Sends hello and the channels. */
  introduce(): void;
  /** @returns whether it can store an identity */
  setIdentity(identity: string): boolean;
  /** @returns the period used from now on, ms */
  setPeriod(periodMs: number): number;
  blink(): void;
  /** The scans stored, oldest first. */
  held(): readonly ScanMessage[];
  /** Sends scans again, at the board's own pace. */
  repeat(scans: readonly ScanMessage[]): void;
  /** Called with every valid command; false means that the board is busy. */
  accepts?(command: HostCommand): boolean;
}

/** Reasons for which a line is no command at all, rather than a command with a wrong argument. */
const UNKNOWN: ReadonlySet<BadLine['reason']> = new Set(['unknown-kind', 'no-checksum', 'not-ascii', 'too-long']);

/**
 * @param send sends an answer to the host
 * @returns a function that receives bytes from the host, in chunks of any size
 */
export function createBoardWire(
  board: WiredBoard,
  send: (message: BoardMessage) => void,
): { receive(bytes: Uint8Array): void; forget(): void } {
  let unfinished = '';

  function refused(command: string, reason: Refused['reason'], bound: { oldest?: number } = {}): void {
    send({ kind: 'refused', command, reason, ...bound });
  }

  function received(line: string): void {
    const message = decodeLine(line);
    if (line.length > MAX_COMMAND_BYTES) refused('?', 'bad-argument');
    else if (message.kind === 'bad') refuse(message.reason, line);
    else if (board.accepts?.(message as HostCommand) === false) refused(message.kind, 'busy');
    else obey(message as HostCommand);
  }

  function refuse(flaw: BadLine['reason'], line: string): void {
    if (flaw === 'empty') return;
    const word = line.split(' ', 1)[0]!;
    const command = /^[a-z]{1,16}$/.test(word) ? word : '?';
    if (flaw === 'bad-checksum') refused('?', flaw);
    else if (UNKNOWN.has(flaw)) refused(command, 'unknown-command');
    else refused(command, 'bad-argument');
  }

  function obey(command: HostCommand): void {
    switch (command.kind) {
      case 'describe':
        board.introduce();
        send({ kind: 'ok', command: 'describe' });
        break;
      case 'blink':
        board.blink();
        send({ kind: 'ok', command: 'blink' });
        break;
      case 'identity':
        if (board.setIdentity(command.identity)) send({ ...command, kind: 'ok', command: 'identity' });
        else refused('identity', 'not-supported');
        break;
      case 'period':
        send({ kind: 'ok', command: 'period', periodMs: board.setPeriod(command.periodMs) });
        break;
      case 'resend':
        resend(command);
        break;
      default:
        refused('?', 'unknown-command');
    }
  }

  /** `to` may be the smaller number, across the wrap at 2³². */
  function resend({ boot, from, to }: HostCommand & { kind: 'resend' }): void {
    const held = board.held();
    const wanted = held.filter(({ sequence }) => (sequence - from) >>> 0 <= (to - from) >>> 0);
    const bound = held[0] && { oldest: held[0].sequence };
    if (boot !== board.boot()) refused('resend', 'other-boot');
    else if (wanted.length === 0) refused('resend', 'not-held', bound);
    else {
      send({ kind: 'ok', command: 'resend', ...bound });
      board.repeat(wanted);
    }
  }

  return {
    receive(bytes) {
      const lines = (unfinished + Buffer.from(bytes).toString('latin1')).split('\n');
      // A line of the host that never ends must not fill the board's memory.
      unfinished = lines.pop()!.slice(0, MAX_COMMAND_BYTES + 2);
      for (const line of lines) received(line.replace(/\r$/, ''));
    },
    forget() {
      unfinished = '';
    },
  };
}

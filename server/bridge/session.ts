import type { HostCommand } from '../../firmware-protocol/lines.ts';
import type { BoardLog, ReceivedScan } from './board-log.ts';
import type { Answer } from './command-queue.ts';
import type { BoardChannel } from './events.ts';
import type { ReceivedLine } from './line-reader.ts';
import type { BoardProblem } from './problems.ts';

/** What a kind of board is, above the port: it turns lines into scans of a board log. */
export interface Session {
  opened(): void;
  /** See `ConnectionHandler.lines`. */
  lines(lines: ReceivedLine[], arrivalUs: number): 'scan' | 'answer' | null;
  ended(): void;
  /** The port is let go. */
  stop(): void;
  describe(): void;
  silenceMs(): number;
  command(command: HostCommand): Promise<Answer>;
  /** The log this session writes to; null until the board is known. */
  log(): BoardLog | null;
  /** Another attachment has the board now. */
  release(): void;
  facts(): SessionFacts;
}

export interface SessionFacts {
  identityStored: boolean;
  name: string | null;
  firmware: string | null;
  periodMs: number | null;
  repeatDepth: number;
  channels: BoardChannel[];
  problem: BoardProblem | null;
}

/** Counts of lines on one attachment. */
export interface LineCounts {
  lines: number;
  badChecksum: number;
  badLines: number;
  discardedBytes: number;
}

/** What a session needs of the bridge. */
export interface SessionHost {
  path: string;
  counts: LineCounts;
  write(text: string): void;
  newId(): string;
  /** The log of a board, made at need. */
  logOf(boardKey: string): BoardLog;
  /**
   * Asks to be the one attachment that carries this board. `shared`: another port is connected and carries the same
   * identity; resolves once that is sure.
   */
  claim(boardKey: string): Promise<'granted' | 'shared'>;
  /** The board that went by `from` so far has said that it is `to`; `scans` are what has come of it. */
  renamed(from: string, to: string, scans: readonly ReceivedScan[]): void;
  changed(): void;
}

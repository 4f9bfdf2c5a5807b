import type { HostCommand } from '../../firmware-protocol/lines.ts';
import type { BoardLog, ReceivedScan } from './board-log.ts';
import type { Answer } from './command-queue.ts';
import type { BoardChannel } from './events.ts';
import type { ReceivedLine } from './line-reader.ts';
import type { BoardProblem } from './problems.ts';

/** The board's behaviour above the port, one session per kind of board: parses lines into scans of a board log. */
export interface Session {
  opened(): void;
  /** See `ConnectionHandler.lines`. */
  lines(lines: ReceivedLine[], arrivalUs: number): 'scan' | 'answer' | null;
  ended(): void;
  /** The port is closed for good. */
  stop(): void;
  describe(): void;
  silenceMs(): number;
  command(command: HostCommand): Promise<Answer>;
  /** The log this session writes to; null until the board is known. */
  log(): BoardLog | null;
  /** Another attachment carries the board now. */
  release(): void;
  facts(): SessionFacts;
  /** Those of its facts that every scan needs. */
  channels(): BoardChannel[];
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

/** What a session uses of the bridge. */
export interface SessionHost {
  path: string;
  counts: LineCounts;
  write(text: string): void;
  newId(): string;
  /** The log of a board, created on first use. */
  logOf(boardKey: string): BoardLog;
  /**
   * Requests to be the one attachment that carries this board. `shared`: another port is connected and carries the same
   * identity; resolves once that is certain.
   */
  claim(boardKey: string): Promise<'granted' | 'shared'>;
  /** The board known as `from` so far has identified itself as `to`; `scans` are those received of it. */
  renamed(from: string, to: string, scans: readonly ReceivedScan[]): void;
  changed(): void;
}

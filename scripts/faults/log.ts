import { closeSync, openSync, readSync } from 'node:fs';
import type { ChannelReading } from '../../firmware-protocol/lines.ts';

/** Milliseconds of the clock that all processes of this machine share and that cannot be set. */
export function nowMs(): number {
  return Number(process.hrtime.bigint()) / 1e6;
}

/** What happened to a scan when the board sent it. */
export type Fate = 'sent' | 'damaged' | 'quiet' | 'unplugged' | 'unheard' | 'dropped';

/** One scan as the board made it. */
export interface MadeScan {
  kind: 'scan';
  /** Number of the scan over all starts of the board, from 0. */
  number: number;
  /** Number of the start of the board, from 0: a board may repeat its boot number. */
  run: number;
  boot: number;
  sequence: number;
  uptimeMs: number;
  /** When the channels were read, see `nowMs`. */
  atMs: number;
  /** Number of the oldest scan that the board can send again, including this one. */
  heldFrom: number;
  fate: Fate;
  readings: ChannelReading[];
}

/** The board started again; `heldFrom` is the oldest scan that remained in its memory. */
export interface Started {
  kind: 'started';
  run: number;
  atMs: number;
  heldFrom: number;
}

export type LogEntry = MadeScan | Started;

const PIECE_BYTES = 64 * 1024;

/** Reads the log of a board while it is being written: one JSON object per line. */
export class LogReader {
  readonly entries: LogEntry[] = [];
  readonly #file: number;
  #offset = 0;
  #open = '';

  constructor(path: string) {
    this.#file = openSync(path, 'a+');
  }

  /** Reads what has been written since. */
  read(): readonly LogEntry[] {
    const piece = Buffer.alloc(PIECE_BYTES);
    for (;;) {
      const bytes = readSync(this.#file, piece, 0, PIECE_BYTES, this.#offset);
      if (bytes === 0) return this.entries;
      this.#offset += bytes;
      const lines = (this.#open + piece.toString('latin1', 0, bytes)).split('\n');
      this.#open = lines.pop()!;
      for (const line of lines) this.entries.push(JSON.parse(line) as LogEntry);
    }
  }

  close(): void {
    closeSync(this.#file);
  }
}

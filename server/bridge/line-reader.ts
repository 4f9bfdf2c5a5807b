import { ReadlineParser } from '@serialport/parser-readline';
import { CUT_MARK, LineCap } from './line-cap.ts';
import { LineEndings } from './line-endings.ts';

/** A line as received, one character per byte (latin1), line ending removed. */
export interface ReceivedLine {
  text: string;
  bytes: number;
  /** The line was longer than the cap; `text` is its beginning. */
  cut: boolean;
  /** The first bytes after the port was opened: the line may have begun before. */
  joinedMidLine: boolean;
}

/**
 * Splits the bytes of one connection into lines. A new reader is made for every connection, so that half a line from
 * before an unplugging is never joined to the first line after it.
 *
 * The cap limits memory and time; `ReadlineParser` behind it joins chunks and splits at `\n`. Text is passed to it as
 * latin1: one character per byte, so that no character can be split across chunks or lines, and decoded per line where
 * text is needed.
 */
export class LineReader {
  readonly #endings: LineEndings | undefined;
  readonly #cap: LineCap;
  readonly #parser = new ReadlineParser({ delimiter: '\n', encoding: 'latin1' });
  #lines: ReceivedLine[] = [];
  #first = true;

  /** @param mayEndAtReturn a carriage return alone ends a line where the connection sends no newline */
  constructor(maxLineBytes: number, mayEndAtReturn: boolean) {
    this.#endings = mayEndAtReturn ? new LineEndings() : undefined;
    this.#cap = new LineCap(maxLineBytes);
    this.#parser.on('data', (line: string) => this.#take(line));
  }

  /**
   * Returns the lines that this chunk completes. A transform stream with a `data` listener emits what it splits within
   * the call that writes to it, so a line is known to have arrived with its last chunk.
   */
  push(chunk: Uint8Array): ReceivedLine[] {
    this.#parser.write(this.#cap.push(this.#endings?.push(chunk) ?? chunk));
    const lines = this.#lines;
    this.#lines = [];
    return lines;
  }

  /** Bytes discarded from lines longer than the cap. */
  get swallowedBytes(): number {
    return this.#cap.swallowedBytes;
  }

  /** Bytes of a line begun and not ended; lost when the connection ends here. */
  get openLineBytes(): number {
    return this.#cap.openLineBytes;
  }

  #take(line: string): void {
    const cut = line.endsWith(CUT_MARK);
    const text = cut ? line.slice(0, -1) : line.endsWith('\r') ? line.slice(0, -1) : line;
    this.#lines.push({ text, bytes: text.length, cut, joinedMidLine: this.#first });
    this.#first = false;
  }
}

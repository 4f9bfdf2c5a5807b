/**
 * Replaces the rest of a line that was cut off; no text line contains it, so no parser takes the beginning for data.
 */
export const CUT_MARK = '\x18';

const NEWLINE = 0x0a;
const CUT_BYTE = 0x18;

/**
 * Byte-level guard in front of a line parser that has no limit of its own (its buffer would grow, and be copied again
 * with every chunk, for as long as no newline arrives). Passes bytes on unchanged until a line exceeds `maxLineBytes`;
 * then ends that line with `CUT_MARK`, discards and counts everything up to the next newline, and continues. It handles
 * bytes only: their content is decoded line by line, so that damaged text cannot affect the next line.
 */
export class LineCap {
  readonly #maxLineBytes: number;
  #lineBytes = 0;
  #swallowing = false;
  #swallowedBytes = 0;

  constructor(maxLineBytes: number) {
    this.#maxLineBytes = maxLineBytes;
  }

  /** Bytes discarded so far. */
  get swallowedBytes(): number {
    return this.#swallowedBytes;
  }

  /** Bytes of the line begun and not ended, as passed on. */
  get openLineBytes(): number {
    return this.#lineBytes;
  }

  push(chunk: Uint8Array): Uint8Array {
    // The usual case costs one search per line and no copy.
    if (!this.#swallowing && this.#fits(chunk)) return chunk;
    const out = new Uint8Array(chunk.length + Math.ceil(chunk.length / this.#maxLineBytes) + 1);
    let length = 0;
    for (const byte of chunk) {
      if (byte === NEWLINE) {
        if (this.#swallowing) this.#swallowing = false;
        this.#lineBytes = 0;
        out[length++] = byte;
      } else if (this.#swallowing) {
        this.#swallowedBytes++;
      } else if (this.#lineBytes === this.#maxLineBytes) {
        this.#swallowing = true;
        this.#swallowedBytes++;
        out[length++] = CUT_BYTE;
      } else {
        this.#lineBytes++;
        out[length++] = byte;
      }
    }
    return out.subarray(0, length);
  }

  /** Checks a whole chunk and, when every line in it fits, records the length of the open line at its end. */
  #fits(chunk: Uint8Array): boolean {
    let start = 0;
    let open = this.#lineBytes;
    for (let end = chunk.indexOf(NEWLINE); end >= 0; end = chunk.indexOf(NEWLINE, start)) {
      if (open + end - start > this.#maxLineBytes) return false;
      open = 0;
      start = end + 1;
    }
    open += chunk.length - start;
    if (open > this.#maxLineBytes) return false;
    this.#lineBytes = open;
    return true;
  }
}

/**
 * Lets a carriage return alone end a line, for boards that print nothing else: they write over one line of a terminal.
 * Decided once a connection: where a newline comes before any such return, a return made by a damaged byte cannot divide
 * a line any more. A return and a newline together leave it open again, since one of them may be damage.
 */

const NEWLINE = 0x0a;
const RETURN = 0x0d;

export class LineEndings {
  #ending: 'unknown' | 'return' | 'newline' = 'unknown';
  #isAfterReturn = false;

  /** The chunk, with a newline wherever a return ends a line. */
  push(chunk: Uint8Array): Uint8Array {
    if (this.#ending === 'newline') return chunk;
    const out = new Uint8Array(chunk.length + 1);
    let length = 0;
    for (const byte of chunk) {
      if (byte === NEWLINE && this.#ending === 'return' && this.#isAfterReturn) {
        this.#ending = 'unknown';
        this.#isAfterReturn = false;
        continue;
      }
      if (byte === NEWLINE && this.#ending === 'unknown') this.#ending = 'newline';
      else if (this.#ending === 'unknown' && this.#isAfterReturn) {
        // The line before ended at the return that was passed on.
        this.#ending = 'return';
        out[length++] = NEWLINE;
      }
      out[length++] = byte === RETURN && this.#ending === 'return' ? NEWLINE : byte;
      this.#isAfterReturn = byte === RETURN;
    }
    return out.subarray(0, length);
  }
}

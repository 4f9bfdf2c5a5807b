/** Worth a message to another process. */
const PIECE_BYTES = 64 * 1024;
/** Between two pieces that are long in the making, an empty one lets others have their turn. */
const TURN_EVERY_MS = 8;
const EMPTY = new Uint8Array(0);

/** Chunks of a file joined to pieces of a useful size, as UTF-8. An empty piece says only that work was done. */
export function* inPieces(chunks: Iterable<string | Uint8Array>): Generator<Uint8Array> {
  let parts: Uint8Array[] = [];
  let bytes = 0;
  let turnMs = performance.now();
  for (const chunk of chunks) {
    const part = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    parts.push(part);
    bytes += part.length;
    if (bytes >= PIECE_BYTES) {
      yield Buffer.concat(parts);
      parts = [];
      bytes = 0;
    } else if (performance.now() - turnMs < TURN_EVERY_MS) continue;
    else yield EMPTY;
    turnMs = performance.now();
  }
  yield Buffer.concat(parts);
}

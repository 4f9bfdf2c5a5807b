import { Zip, ZipDeflate } from 'fflate';

export interface ZipEntry {
  readonly path: string;
  readonly chunks: () => Iterable<string | Uint8Array>;
}

/** Smallest piece worth handing to the compressor: many small strings are joined first. */
const pieceBytes = 64 * 1024;

/**
 * Compress entries into a zip archive as they are read: no entry is ever whole in memory.
 * The same entries give the same bytes; the time stamp of every entry is fixed.
 */
export function* zip(entries: Iterable<ZipEntry>): Generator<Uint8Array> {
  let ready: Uint8Array[] = [];
  let failure: Error | null = null;
  const archive = new Zip((error, bytes) => {
    failure ??= error;
    if (bytes.length > 0) ready.push(bytes);
  });
  function* drain(): Generator<Uint8Array> {
    if (failure) throw failure;
    yield* ready;
    ready = [];
  }
  for (const entry of entries) {
    const file = new ZipDeflate(entry.path, { level: 6 });
    file.mtime = '1980-01-01T00:00:00';
    archive.add(file);
    for (const piece of pieces(entry.chunks())) {
      file.push(piece);
      yield* drain();
    }
    file.push(new Uint8Array(0), true);
    yield* drain();
  }
  archive.end();
  yield* drain();
}

const encoder = new TextEncoder();

/** Join small strings into pieces of a useful size, as UTF-8. */
export function* pieces(chunks: Iterable<string | Uint8Array>): Generator<Uint8Array> {
  let text = '';
  for (const chunk of chunks) {
    if (typeof chunk === 'string') {
      text += chunk;
      if (text.length < pieceBytes) continue;
    }
    if (text !== '') yield encoder.encode(text);
    text = '';
    if (typeof chunk !== 'string') yield chunk;
  }
  if (text !== '') yield encoder.encode(text);
}

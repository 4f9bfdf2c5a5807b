import { Zip } from 'fflate';
import { DeflatedFile } from './deflated-file.ts';

export interface ZipEntry {
  readonly path: string;
  readonly chunks: () => Iterable<string | Uint8Array>;
}

/** Smallest piece worth handing to the compressor: many small strings are joined first. */
const pieceBytes = 128 * 1024;

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
  /** Hands on what is ready; where that is nothing, an empty piece, so that whoever reads can give others their turn. */
  function* drain(): Generator<Uint8Array> {
    if (failure) throw failure;
    const finished = ready;
    ready = [];
    yield* finished.length > 0 ? finished : [EMPTY];
  }
  for (const entry of entries) {
    const file = new DeflatedFile(entry.path);
    archive.add(file);
    for (const piece of pieces(entry.chunks())) {
      file.push(piece);
      yield* drain();
    }
    file.finish();
    yield* drain();
  }
  archive.end();
  yield* drain();
}

const EMPTY = new Uint8Array(0);
const encoder = new TextEncoder();

/** Join small strings into pieces of a useful size, as UTF-8, and cut large ones. */
export function* pieces(chunks: Iterable<string | Uint8Array>): Generator<Uint8Array> {
  let text = '';
  for (const chunk of chunks) {
    if (typeof chunk === 'string') {
      text += chunk;
      if (text.length < pieceBytes) continue;
    }
    yield* cut(encoder.encode(text));
    text = '';
    if (typeof chunk !== 'string') yield* cut(chunk);
  }
  yield* cut(encoder.encode(text));
}

function* cut(bytes: Uint8Array): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += pieceBytes) yield bytes.subarray(at, at + pieceBytes);
}

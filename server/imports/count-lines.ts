/** The lines of a file, counted piece by piece: what a table becomes takes several times its bytes, so that one too long is never held. */
import { closeSync, openSync, readSync } from 'node:fs';

const PIECE_BYTES = 256 * 1024;
const [LINE_FEED, CARRIAGE_RETURN] = [0x0a, 0x0d];

/** @returns more than `most` where there are more, without reading on */
export function countLines(path: string, most: number): number {
  const file = openSync(path, 'r');
  try {
    const piece = Buffer.alloc(PIECE_BYTES);
    let lines = 1;
    let before = 0;
    for (let bytes = readSync(file, piece); bytes > 0 && lines <= most; bytes = readSync(file, piece)) {
      for (let at = 0; at < bytes; at++) {
        const byte = piece[at]!;
        if (byte === CARRIAGE_RETURN || (byte === LINE_FEED && before !== CARRIAGE_RETURN)) lines++;
        before = byte;
      }
    }
    return lines;
  } finally {
    closeSync(file);
  }
}

/** The first bytes of a file. */
export function startOf(path: string, bytes: number): Uint8Array {
  const file = openSync(path, 'r');
  try {
    const start = Buffer.alloc(bytes);
    return start.subarray(0, readSync(file, start));
  } finally {
    closeSync(file);
  }
}

import { setImmediate as nextTurn } from 'node:timers/promises';

/**
 * Goes through chunks that are made as they are read, and lets the rest of the service have its turn between any two: a
 * reader as fast as the maker would otherwise hold up the serial ports until the file is whole.
 */
export async function* paced<T extends { length: number }>(chunks: Iterable<T>): AsyncGenerator<T> {
  for (const chunk of chunks) {
    // An empty one says only that work was done.
    if (chunk.length > 0) yield chunk;
    await nextTurn();
  }
}

/** The least that any program would do for the readings of a burn, whoever stores them. */
import { readFileSync, writeFileSync } from 'node:fs';
import type { ScanColumns } from '../../../server/store/store.ts';

/** Writes the times and counts of a burn into a raw file, column after column. */
export function writeRaw(file: string, { elapsedUs, counts }: ScanColumns): void {
  const scans = elapsedUs.length;
  const all = new Float64Array(scans * (counts.length + 1));
  for (const [column, values] of [elapsedUs, ...counts].entries()) all.set(values, column * scans);
  writeFileSync(file, all);
}

/** The columns of a raw file as typed arrays. */
export function readRaw(file: string, columns: number): Float64Array[] {
  const bytes = readFileSync(file);
  const all = new Float64Array(bytes.buffer, bytes.byteOffset, bytes.length / 8);
  const scans = all.length / columns;
  return Array.from({ length: columns }, (_, column) => all.slice(column * scans, (column + 1) * scans));
}

/** Lowest and highest of every channel in each of `columns` equal parts, out of typed arrays. */
export function extremes({ counts, elapsedUs }: ScanColumns, columns: number): { lowest: number; highest: number }[][] {
  const part = elapsedUs.length / columns;
  return counts.map((values) =>
    Array.from({ length: columns }, (_, column) => {
      let lowest = Number.POSITIVE_INFINITY;
      let highest = Number.NEGATIVE_INFINITY;
      const to = Math.floor((column + 1) * part);
      for (let scan = Math.floor(column * part); scan < to; scan++) {
        const value = values[scan]!;
        if (value < lowest) lowest = value;
        if (value > highest) highest = value;
      }
      return { lowest, highest };
    }),
  );
}

/**
 * Bytes a reading below which no code of single differences can get: the order-0 entropy (C. E. Shannon, "A mathematical theory of
 * communication", 1948) of the differences of every channel's counts, and of arrivals.
 */
export function entropyBytes({ arrivedUs, counts }: ScanColumns): number {
  const bits = [arrivedUs, ...counts].reduce((sum, column) => sum + entropyBits(column), 0);
  return bits / 8 / counts.length;
}

/** Bits a value. */
function entropyBits(values: Float64Array | Int32Array): number {
  const times = new Map<number, number>();
  for (let index = 1; index < values.length; index++) {
    const difference = values[index]! - values[index - 1]!;
    times.set(difference, (times.get(difference) ?? 0) + 1);
  }
  const count = values.length - 1;
  return [...times.values()].reduce((sum, each) => sum - (each / count) * Math.log2(each / count), 0);
}

/** A row in which one bit changed, put right: of all rows that differ in one bit from it, the one whose checksum it carries. */
import type { Row } from './readable-rows.ts';
import { type CheckedTable, checkedColumns, rowChecksum } from './row-checksums.ts';

/** Where whole numbers are exact. */
const NUMBER_BITS = 53;

/** @returns undefined when more than a bit changed */
export function mendRow(table: CheckedTable, row: Row): Row | undefined {
  const { checksum } = row;
  if (typeof checksum !== 'number') return undefined;
  const columns = checkedColumns(table);
  const sum = (candidate: Row) => rowChecksum(...columns.map((column) => candidate[column] as string | number | null));
  // The bit that changed was one of the checksum.
  const difference = (sum(row) ^ checksum) >>> 0;
  if ((difference & (difference - 1)) === 0) return { ...row, checksum: sum(row) };
  for (const column of columns) {
    for (const value of neighbours(row[column])) {
      const candidate = { ...row, [column]: value };
      if (sum(candidate) === checksum) return candidate;
    }
  }
  return undefined;
}

/** All values that differ in one bit. */
function* neighbours(value: Row[string] | undefined): Generator<string | number> {
  if (typeof value === 'number') {
    for (let bit = 0; bit < NUMBER_BITS; bit++) {
      const power = 2 ** bit;
      yield Math.floor(value / power) % 2 === 0 ? value + power : value - power;
    }
  } else if (typeof value === 'string') {
    // A letter whose highest bit changed is no letter any more.
    if (value.includes('\uFFFD')) {
      for (let code = 0; code < 128; code++) yield value.replace('\uFFFD', String.fromCharCode(code));
      return;
    }
    const bytes = Buffer.from(value);
    for (let at = 0; at < bytes.length * 8; at++) {
      bytes[at >> 3]! ^= 1 << (at & 7);
      yield bytes.toString();
      bytes[at >> 3]! ^= 1 << (at & 7);
    }
  }
}

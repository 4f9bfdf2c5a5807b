import type { PlainFormat } from '../contract/boards.ts';
import type { FaultCode } from '../contract/burn-record.ts';
import { readPlainField } from './field.ts';
import { splitPlainLine } from './split-line.ts';

/** Counts of a plain board are its decimals times this; the channel's scale is the inverse. */
export const PLAIN_COUNTS_PER_UNIT = 10_000;
export const PLAIN_SCALE = 1e-4;

/** One line of a plain board under a format. `other`: a header, boot text, or anything else that is no row of readings. */
export type PlainLine =
  | { kind: 'other' }
  | { kind: 'data'; timeMs: number | null; counts: (number | null)[]; faults: (FaultCode | null)[] };

/**
 * Reads a line of a plain board. Header lines need no counting: a row counts as readings when every mapped column is
 * there and at least one of them is a number (or all of them are words for a fault).
 */
export function readPlainLine(line: string, format: PlainFormat): PlainLine {
  const fields = splitPlainLine(line, format.separator);
  const needed = Math.max(format.timeColumn ?? 0, ...format.columns.map((c) => c.column));
  if (fields.length <= needed) return { kind: 'other' };
  const read = format.columns.map((c) => readPlainField(fields[c.column]!, format.decimal));
  if (!read.some((f) => f.kind === 'number') && !read.every((f) => f.kind === 'fault')) return { kind: 'other' };
  if (fields.every((field) => field === '')) return { kind: 'other' };

  let timeMs: number | null = null;
  if (format.timeColumn !== undefined) {
    const time = readPlainField(fields[format.timeColumn]!, format.decimal);
    if (time.kind !== 'number') return { kind: 'other' };
    timeMs = Math.round(format.timeUnit === 's' ? time.value * 1000 : time.value);
  }
  const counts = read.map((f) => (f.kind === 'number' ? Math.round(f.value * PLAIN_COUNTS_PER_UNIT) || 0 : null));
  return {
    kind: 'data',
    timeMs,
    counts: counts.map((count) => (count !== null && isCount(count) ? count : null)),
    faults: read.map((f, i) => {
      if (f.kind === 'fault') return f.fault;
      if (f.kind === 'text') return 'unreadable';
      return isCount(counts[i]!) ? null : 'outOfRange';
    }),
  };
}

/** What a reading can be in the store, and on the wire of a board that speaks the protocol: 32 bits with a sign. */
function isCount(count: number): boolean {
  return (count | 0) === count;
}

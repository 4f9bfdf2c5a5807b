/**
 * A checksum with every row that a person or the service stated, made when it is written. SQLite notices a page that makes no
 * sense, not a changed bit inside a text. CRC-32 finds every change of one bit and of any 32 bits in a row (Koopman, 32-Bit Cyclic
 * Redundancy Codes for Internet Applications, DSN 2002). Readings have a seal for each burn instead.
 */
import { crc32 } from 'node:zlib';
import type { Database } from 'better-sqlite3';

/** What the checksum of a row is made of, in this order. */
const columnsOf = {
  burn: ['key', 'id'],
  board: ['key', 'id'],
  document: ['kind', 'id', 'version', 'burn_key', 'body', 'withdrawn', 'edited_at_ms', 'edited_by'],
  gap: [
    'burn_key',
    'board_id',
    'from_us',
    'to_us',
    'cause',
    'state',
    'boot',
    'from_sequence',
    'to_sequence',
    'before_ms',
    'after_ms',
  ],
  derived: ['burn_key', 'name', 'stamp', 'value'],
};
export type CheckedTable = keyof typeof columnsOf;
export const checkedTables = Object.keys(columnsOf) as CheckedTable[];

export function checkedColumns(table: CheckedTable): readonly string[] {
  return columnsOf[table];
}

type Value = string | number | null;

/** CRC-32 of the values of a row, in the order of `checksumOf`. */
export function rowChecksum(...values: readonly Value[]): number {
  return crc32(values.map((value) => (value === null ? '\u0001' : String(value))).join('\u0000'));
}

/** Without it a connection can neither write these rows nor check them. */
export function addChecksums(db: Database): void {
  db.function('row_checksum', { varargs: true, deterministic: true }, (...values) =>
    rowChecksum(...(values as Value[])),
  );
}

/** The checksum of a row in SQL. @param written what stands for a column: itself, or a bound value while it is written */
export function checksumOf(table: CheckedTable, written: (column: string) => string = (column) => column): string {
  return `row_checksum(${columnsOf[table].map(written).join(', ')})`;
}

/** A row that is not what was written. */
export interface ChangedRow {
  table: CheckedTable;
  /** What it is, for a person who looks for it: of a document its kind, identifier and version. */
  row: string;
}

const description: Record<CheckedTable, string> = {
  burn: 'id',
  board: 'id',
  document: "kind || ' ' || id || ' ' || version",
  gap: "cause || ' ' || from_us",
  derived: 'name',
};

/** All rows of a table that are not what was written; `where` chooses among them. */
export function changedRows(db: Database, table: CheckedTable, where = 'true', ...bound: Value[]): ChangedRow[] {
  return db
    .prepare<Value[], string | null>(
      `SELECT ${description[table]} FROM ${table} WHERE checksum IS NOT ${checksumOf(table)} AND ${where}`,
    )
    .pluck()
    .all(...bound)
    .map((row) => ({ table, row: row ?? '' }));
}

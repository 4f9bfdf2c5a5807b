/**
 * What can be read of a damaged database, copied row by row into a new one of the same layout. Nothing of the damaged folder is
 * written to. Formats of file and log: SQLite, "Database File Format" (sqlite.org/fileformat2.html).
 */
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { DATABASE, LOG, requireBench } from './data-folder.ts';
import { mendRow } from './mend-row.ts';
import { LAYOUT_AT, layoutOf, migrations } from './migrations.ts';
import { type Row, readableRows } from './readable-rows.ts';
import { addChecksums, type CheckedTable, checkedTables, checksumOf } from './row-checksums.ts';
import { pagesOfLog } from './write-ahead-log.ts';

export interface Salvaged {
  /** Rows read, by table. */
  rows: Record<string, number>;
  /** Rows of which one bit had changed and was put right. */
  mended: string[];
  /** What could not be read, or is not what was written. */
  leftOut: string[];
}

const HEADER_BYTES = 100;
const SIZE_AT = 28;

/**
 * @param target a folder that does not exist or is empty
 * @throws AppError store/damaged when nothing can be read at all, store/no-bench
 */
export function salvageDatabase(folder: string, target: string): Salvaged {
  requireBench(folder);
  mkdirSync(target, { recursive: true, mode: 0o700 });
  const copy = join(target, 'damaged.db');
  try {
    return copyRows(openCopy(folder, copy), join(target, DATABASE));
  } finally {
    for (const end of ['', '-wal', '-shm']) rmSync(`${copy}${end}`, { force: true });
  }
}

/** A copy of the damaged database, with its log; its header, or its list of tables, taken from a new one where it cannot be opened else. */
function openCopy(folder: string, copy: string): Database.Database {
  const file = join(folder, DATABASE);
  const log = join(folder, LOG);
  const size = statSync(file, { throwIfNoEntry: false })?.size ?? 0;
  if (size === 0) writeFileSync(copy, pagesOfLog(readFileSync(log)));
  else copyFileSync(file, copy);
  const whole = readFileSync(copy);
  let raw = '';
  for (const mend of [(bytes: Buffer) => bytes, withNewHeader, withNewSchema]) {
    writeFileSync(copy, mend(whole));
    if (size > 0 && existsSync(log)) copyFileSync(log, `${copy}-wal`);
    const db = new Database(copy);
    try {
      addChecksums(db);
      if (!migrations.some(({ toVersion }) => toVersion === layoutOf(db))) raw = `layout ${layoutOf(db)}`;
      else if (hasReadableTable(db)) return db;
    } catch (error) {
      raw = (error as Error).message;
    }
    db.close();
  }
  throw new AppError('store/damaged', { file, raw });
}

function hasReadableTable(db: Database.Database): boolean {
  const statements = checkedTables.map((table) => db.prepare(`SELECT * FROM ${table} LIMIT 1`));
  return statements.some((statement) => {
    try {
      return statement.all().length > 0;
    } catch {
      return false;
    }
  });
}

/** The header that SQLite writes for us, with the size of this file; the layout stays where there is one of that number. */
function withNewHeader(bytes: Buffer): Buffer {
  const mended = Buffer.from(bytes);
  const { bytes: fresh } = newDatabase();
  fresh.copy(mended, 0, 0, HEADER_BYTES);
  mended.writeUInt32BE(Math.floor(bytes.length / pageBytes(fresh)), SIZE_AT);
  const layout = bytes.readUInt32BE(LAYOUT_AT);
  if (migrations.some(({ toVersion }) => toVersion === layout)) mended.writeUInt32BE(layout, LAYOUT_AT);
  return mended;
}

/** The first pages say where the tables begin; in benches made by this layout that is always in the same place. */
function withNewSchema(bytes: Buffer): Buffer {
  const mended = Buffer.from(bytes);
  const { bytes: fresh, schemaPages } = newDatabase();
  const size = pageBytes(fresh);
  for (const page of schemaPages) fresh.copy(mended, (page - 1) * size, (page - 1) * size, page * size);
  mended.writeUInt32BE(Math.floor(bytes.length / size), SIZE_AT);
  return mended;
}

const pageBytes = (bytes: Buffer) => bytes.readUInt16BE(16);

function newDatabase(): { bytes: Buffer; schemaPages: number[] } {
  const db = new Database(':memory:');
  try {
    makeLayout(db, migrations.at(-1)!.toVersion);
    const schemaPages = db.prepare<[], number>("SELECT pageno FROM dbstat WHERE name = 'sqlite_schema'").pluck().all();
    const bytes = db.serialize();
    // Read and write version 2: with a log.
    bytes[18] = 2;
    bytes[19] = 2;
    return { bytes, schemaPages };
  } finally {
    db.close();
  }
}

function makeLayout(db: Database.Database, layout: number): void {
  addChecksums(db);
  for (const { toVersion, sql } of migrations) if (toVersion <= layout) db.exec(sql);
  db.pragma(`user_version = ${layout}`);
}

function copyRows(source: Database.Database, file: string): Salvaged {
  const target = new Database(file);
  const found: Salvaged = { rows: {}, mended: [], leftOut: [] };
  try {
    makeLayout(target, layoutOf(source));
    target.pragma('foreign_keys = ON');
    const tables = target
      .prepare<[], string>(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY rowid",
      )
      .pluck()
      .all();
    // Whatever belongs to burns and boards comes after them.
    const first = tables.filter((table) => table === 'burn' || table === 'board');
    for (const table of new Set([...first, ...tables])) {
      target.transaction(() => copyTable(source, target, table, found)).immediate();
    }
  } finally {
    target.close();
    source.close();
  }
  return found;
}

function copyTable(source: Database.Database, target: Database.Database, table: string, found: Salvaged): void {
  const columns = target.pragma(`table_info(${table})`) as { name: string }[];
  const names = columns.map(({ name }) => name);
  const insert = target.prepare(
    `INSERT OR IGNORE INTO ${table} (${names.join(', ')}) VALUES (${names.map((name) => `@${name}`).join(', ')})`,
  );
  const hasChecksums = names.includes('checksum') && (checkedTables as string[]).includes(table);
  const matches = hasChecksums
    ? target
        .prepare<Row, number>(`SELECT ${checksumOf(table as CheckedTable, (column) => `@${column}`)} = @checksum`)
        .pluck()
    : undefined;
  found.rows[table] = 0;
  const save = (row: Row): void => {
    try {
      found.rows[table]! += insert.run(row).changes;
    } catch (error) {
      found.leftOut.push(`${nameOf(table, row)}: ${(error as Error).message}`);
    }
  };
  for (const row of readableRows(source, table, (damage) => found.leftOut.push(`${table}: ${damage}`))) {
    if (!matches || matches.get(row) === 1) save(row);
    // What can be worked out again is.
    else if (table !== 'derived') {
      const mended = mendRow(table as CheckedTable, row);
      if (mended) {
        found.mended.push(nameOf(table, mended));
        save(mended);
      } else found.leftOut.push(`${nameOf(table, row)}: not what was written`);
    }
  }
}

function nameOf(table: string, { kind, id, version, cause }: Row): string {
  return [table, kind, id, version, cause]
    .filter((part) => typeof part === 'string' || typeof part === 'number')
    .join(' ');
}

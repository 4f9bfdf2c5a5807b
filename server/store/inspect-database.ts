/**
 * A database looked at before anything is written to it, by a connection that can only read: what is damaged is refused with the files as
 * they were found. Read through only where somebody wrote to the file since it was last closed whole, as after a loss of power or a
 * copy; a bit that changed by itself is found when the service has nothing else to do (`server/backup/idle-check.ts`).
 */
import { closeSync, existsSync, openSync, readFileSync, readSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { CLOSED, DATABASE, LOG } from './data-folder.ts';
import { LAYOUT_AT, layoutOf, type Migration, refuseNewer } from './migrations.ts';
import { addChecksums, changedRows, checkedTables } from './row-checksums.ts';
import { readable, sqliteCode } from './sqlite-errors.ts';

/**
 * @param isSuspect read it through even if nobody wrote to it since
 * @throws AppError store/damaged, store/log-alone, store/newer; every file is as it was then
 */
export function inspectDatabase(folder: string, steps: readonly Migration[], isSuspect = false): void {
  const file = join(folder, DATABASE);
  const size = sizeOf(file) ?? 0;
  // SQLite takes a log beside an empty database for rubbish and deletes it, with all that only the log holds.
  if (size === 0 && (sizeOf(join(folder, LOG)) ?? 0) > 0) throw new AppError('store/log-alone', { file });
  if (size === 0) return;
  // What is to be moved to another layout is read through first, in any case.
  if (!isSuspect && asClosed(folder) && layoutInHeader(file) === steps.at(-1)?.toVersion) return;
  leavingNothing(folder, () => {
    let db: Database.Database | undefined;
    try {
      db = new Database(file, { readonly: true });
      addChecksums(db);
      refuseNewer(db, folder, steps);
      const [fault] = faultsOf(db, steps);
      if (fault !== undefined) throw new AppError('store/damaged', { file, raw: fault });
    } catch (error) {
      // What SQLite cannot make sense of here was written by nobody.
      const raw = error instanceof Error && sqliteCode(error) === 'SQLITE_ERROR' ? error.message : undefined;
      throw raw === undefined
        ? readable(error, folder)
        : new AppError('store/damaged', { file, raw }, { cause: error });
    } finally {
      db?.close();
    }
  });
}

/** The first thing that is wrong, cheapest first. */
function* faultsOf(db: Database.Database, steps: readonly Migration[]): Generator<string> {
  yield* missingObjects(db, steps);
  const verdict = db.pragma('quick_check(1)', { simple: true }) as string;
  if (verdict !== 'ok') yield verdict;
  if (layoutOf(db) !== steps.at(-1)?.toVersion) return;
  for (const table of checkedTables) {
    // A value that can be worked out again is no reason to refuse a bench.
    if (table === 'derived') continue;
    const sound = db.pragma(`integrity_check(${table})`, { simple: true }) as string;
    if (sound !== 'ok') yield sound;
    for (const { row } of changedRows(db, table)) yield `${table} ${row}`;
  }
}

/** Tables, indexes and triggers that the layout has and the file has not, or has in other words. */
function* missingObjects(db: Database.Database, steps: readonly Migration[]): Generator<string> {
  const layout = layoutOf(db);
  const reference = new Database(':memory:');
  try {
    addChecksums(reference);
    for (const { sql } of steps.filter(({ toVersion }) => toVersion <= layout)) reference.exec(sql);
    const objects = 'SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL';
    const found = new Map(
      db
        .prepare<[], { name: string; sql: string }>(objects)
        .all()
        .map(({ name, sql }) => [name, sql]),
    );
    if (layout === 0 && found.size > 0) yield 'layout 0';
    for (const { name, sql } of reference.prepare<[], { name: string; sql: string }>(objects).all()) {
      if (found.get(name) !== sql) yield `${name}`;
    }
  } finally {
    reference.close();
  }
}

/** A connection that only reads still makes an index of the log, and leaves it lying. */
function leavingNothing(folder: string, work: () => void): void {
  const index = join(folder, `${DATABASE}-shm`);
  const log = join(folder, LOG);
  const hadLog = existsSync(log);
  const before = existsSync(index) ? readFileSync(index) : undefined;
  try {
    work();
  } finally {
    if (before) writeFileSync(index, before);
    else rmSync(index, { force: true });
    if (!hadLog) rmSync(log, { force: true });
  }
}

/**
 * Remembers the database file as it is, closed whole. Whatever is written later leaves a log or another moment of change.
 * @param unfinished its burns that run or are not weighed yet, where they are known
 */
export function rememberClosed(folder: string, unfinished?: readonly string[]): void {
  writeFileSync(join(folder, CLOSED), JSON.stringify({ ...stateOf(folder), unfinished }));
}

/** What was remembered of the database when it was closed; undefined where it is not as it was then. */
export function asClosed(folder: string): { readonly unfinished: readonly string[] | undefined } | undefined {
  try {
    const closed = JSON.parse(readFileSync(join(folder, CLOSED), 'utf8')) as Record<string, unknown>;
    const now = stateOf(folder);
    if (existsSync(join(folder, LOG)) || closed.bytes !== now.bytes || closed.changed !== now.changed) return undefined;
    const { unfinished } = closed;
    const isList = Array.isArray(unfinished) && unfinished.every((id) => typeof id === 'string');
    return { unfinished: isList ? unfinished : undefined };
  } catch {
    return undefined;
  }
}

/** Size, and the moments at which the content and the entry in the folder last changed, in nanoseconds. */
function stateOf(folder: string): { bytes: string; changed: string } {
  const { size, mtimeNs, ctimeNs } = statSync(join(folder, DATABASE), { bigint: true });
  return { bytes: String(size), changed: `${mtimeNs} ${ctimeNs}` };
}

function layoutInHeader(file: string): number {
  const bytes = Buffer.alloc(4);
  const opened = openSync(file, 'r');
  try {
    readSync(opened, bytes, 0, bytes.length, LAYOUT_AT);
  } finally {
    closeSync(opened);
  }
  return bytes.readUInt32BE();
}

function sizeOf(file: string): number | undefined {
  return statSync(file, { throwIfNoEntry: false })?.size;
}

import { join } from 'node:path';
import Database from 'better-sqlite3';
import { createChanges, notingGaps, notingScans } from './changes.ts';
import { claimDataFolder, DATABASE } from './data-folder.ts';
import { createDerived } from './derived-values.ts';
import { createDocuments } from './documents.ts';
import { dataVersionOf } from './documents-in-memory.ts';
import { createGaps } from './gaps.ts';
import { asClosed, inspectDatabase, rememberClosed } from './inspect-database.ts';
import { lockFolder } from './instance-lock.ts';
import { layoutOf, type Migration, migrate, migrations, refuseNewer } from './migrations.ts';
import { addChecksums, type ChangedRow, type CheckedTable, changedRows, checkedTables } from './row-checksums.ts';
import { createRowVersions } from './row-versions.ts';
import { createScans } from './scans.ts';
import { createShortKeys } from './short-keys.ts';
import { readable } from './sqlite-errors.ts';
import type { Store } from './store.ts';

/** The write-ahead log is cut back to this after a checkpoint, so that one long burn does not leave a huge file. */
const LOG_LIMIT_BYTES = 8 * 1024 * 1024;

/** Of a copy, between two turns of the loop. */
const PAGES_AT_ONCE = 100;

export interface StoreOptions {
  /** UTC milliseconds for the labels on documents. */
  nowMs: () => number;
  migrations?: readonly Migration[];
}

/**
 * Opens the data in `folder`, making it when it is not there.
 * @throws AppError store/folder-not-writable, store/folder-for-file, store/in-use, store/newer, store/damaged, store/log-alone; the data
 *   are untouched then
 */
export function openStore(folder: string, options: StoreOptions): Store {
  try {
    claimDataFolder(folder);
  } catch (error) {
    throw readable(error, folder);
  }
  const steps = options.migrations ?? migrations;
  const lock = lockFolder(folder);
  try {
    inspectDatabase(folder, steps);
    return openSound(folder, lock, steps, options.nowMs);
  } catch (error) {
    lock.undo();
    throw error;
  }
}

function openSound(
  folder: string,
  lock: ReturnType<typeof lockFolder>,
  steps: readonly Migration[],
  nowMs: () => number,
): Store {
  let db: Database.Database | undefined;
  const unfinished = asClosed(folder)?.unfinished;
  try {
    db = new Database(join(folder, DATABASE));
    addChecksums(db);
    prepare(db, folder, steps);
    return assemble(db, folder, nowMs, lock, unfinished);
  } catch (error) {
    db?.close();
    inspectDatabase(folder, steps, true);
    throw readable(error, folder);
  }
}

/**
 * Opens the data of a service or command that holds them, in another process, for reading only: what has been written is seen at once, and
 * whatever would write throws.
 * @throws AppError store/damaged, store/folder-not-writable
 */
export function openStoreToRead(folder: string): Store {
  try {
    const db = new Database(join(folder, DATABASE), { readonly: true, fileMustExist: true });
    addChecksums(db);
    return assemble(db, folder, () => 0);
  } catch (error) {
    throw readable(error, folder);
  }
}

function prepare(db: Database.Database, folder: string, steps: readonly Migration[]): void {
  refuseNewer(db, folder, steps);
  // A file without the right to write opens all the same, for reading only: better to hear of it now than in the burn.
  db.exec(`BEGIN IMMEDIATE; PRAGMA user_version = ${layoutOf(db)}; ROLLBACK`);
  db.pragma('journal_mode = WAL');
  // The default under WAL may lose the last transactions with the power; a burn cannot be repeated this week.
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  db.pragma(`journal_size_limit = ${LOG_LIMIT_BYTES}`);
  migrate(db, folder, steps);
  db.exec("DELETE FROM burn WHERE NOT EXISTS (SELECT 1 FROM document WHERE burn_key = burn.key AND kind = 'burn')");
}

function assemble(
  db: Database.Database,
  folder: string,
  nowMs: () => number,
  lock?: ReturnType<typeof lockFolder>,
  unfinished?: readonly string[],
): Store {
  const burns = createShortKeys(db, 'burn');
  const boards = createShortKeys(db, 'board');
  const remove = db.prepare<[string]>('DELETE FROM burn WHERE id = ?');
  const changes = createChanges();
  const dataVersion = dataVersionOf(db);
  const rows = createRowVersions(db, burns);
  const changesOf = lock ? changes.of : (burnId: string) => `${rows.ofBurn(burnId)} ${rows.ofInventory()}`;
  const documents = createDocuments(db, burns, nowMs, changes, lock !== undefined, unfinished);
  /** A transaction may be undone. */
  const unlessUndone = (changed: () => string) => (db.inTransaction ? undefined : changed());
  return {
    folder,
    documents,
    scans: notingScans(createScans(db, burns, boards), changes),
    gaps: notingGaps(createGaps(db, burns), changes),
    derived: createDerived(db, burns),
    expectBurn: (burnId) => void burns.ensure(burnId),
    together: (work) => db.transaction(work).immediate(),
    removeBurn(burnId) {
      remove.run(burnId);
      documents.removed(burnId);
    },
    changesOf: (burnId) => unlessUndone(() => changesOf(burnId)),
    versionOf: rows.ofBurn,
    changesOfDocuments: () => unlessUndone(lock ? changes.documents : dataVersion),
    checkpoint: () => void db.pragma('wal_checkpoint(TRUNCATE)'),
    async backup(to, signal) {
      const progress = () => {
        signal?.throwIfAborted();
        return PAGES_AT_ONCE;
      };
      await db.backup(to, { progress });
    },
    faults: () => faultsOf(db),
    changedEntries: (burnId) => changedEntries(db, burnId === undefined ? undefined : burns.find(burnId)),
    announce: (address) => lock?.announce(address),
    close() {
      const known = lock && documents.knownUnfinished();
      db.close();
      if (!lock) return;
      rememberClosed(folder, known);
      lock.release();
    },
  };
}

/** Of a burn, or of no burn. */
function changedEntries(db: Database.Database, burn: number | undefined): ChangedRow[] {
  if (burn === undefined) {
    return [
      ...(['burn', 'board', 'document', 'gap'] as const).flatMap((table) => pagesFault(db, table)),
      ...changedRows(db, 'board'),
      ...changedRows(db, 'document', 'burn_key IS NULL'),
    ];
  }
  return [
    ...changedRows(db, 'burn', 'key = ?', burn),
    ...changedRows(db, 'document', 'burn_key = ?', burn),
    ...changedRows(db, 'gap', 'burn_key = ?', burn),
  ];
}

/** Rows that are not there any more have no checksum that could say so. */
function pagesFault(db: Database.Database, table: CheckedTable): ChangedRow[] {
  const verdict = db.pragma(`integrity_check(${table})`, { simple: true }) as string;
  return verdict === 'ok' ? [] : [{ table, row: verdict }];
}

function faultsOf(db: Database.Database): string[] {
  return [
    ...orMessage(() =>
      (db.pragma('integrity_check') as { integrity_check: string }[]).map((row) => row.integrity_check),
    ),
    ...orMessage(() =>
      (db.pragma('foreign_key_check') as { table: string; rowid: number | null; parent: string }[]).map(
        ({ table, rowid, parent }) => `${table} ${rowid ?? ''} belongs to no ${parent}`,
      ),
    ),
    ...checkedTables.flatMap((table) =>
      orMessage(() => changedRows(db, table).map(({ row }) => `${table} ${row} changed on the disk`)),
    ),
  ].filter((text) => text !== 'ok');
}

/** What a check finds, or why it came to no end. */
function orMessage(check: () => string[]): string[] {
  try {
    return check();
  } catch (error) {
    return [(error as Error).message];
  }
}

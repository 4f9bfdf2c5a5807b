import { join } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { claimDataFolder, DATABASE } from './data-folder.ts';
import { createDerived } from './derived-values.ts';
import { createDocuments } from './documents.ts';
import { createGaps } from './gaps.ts';
import { lockFolder } from './instance-lock.ts';
import { layoutOf, type Migration, migrate, migrations, refuseNewer } from './migrations.ts';
import { createScans } from './scans.ts';
import { createShortKeys } from './short-keys.ts';
import { readable } from './sqlite-errors.ts';
import type { Store } from './store.ts';

/** The write-ahead log is cut back to this after a checkpoint, so that one long burn does not leave a huge file. */
const LOG_LIMIT_BYTES = 8 * 1024 * 1024;

export interface StoreOptions {
  /** UTC milliseconds for the labels on documents. */
  nowMs: () => number;
  migrations?: readonly Migration[];
}

/**
 * Opens the data in `folder`, making it when it is not there.
 * @throws AppError store/folder-not-writable, store/in-use, store/newer, store/damaged; the data are untouched then
 */
export function openStore(folder: string, options: StoreOptions): Store {
  const file = join(folder, DATABASE);
  try {
    claimDataFolder(folder);
  } catch (error) {
    throw readable(error, folder);
  }
  const lock = lockFolder(folder);
  let db: Database.Database | undefined;
  try {
    db = new Database(file);
    prepare(db, folder, file, options.migrations ?? migrations);
    return assemble(db, folder, options.nowMs, lock);
  } catch (error) {
    db?.close();
    lock.release();
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
    return assemble(db, folder, () => 0);
  } catch (error) {
    throw readable(error, folder);
  }
}

function prepare(db: Database.Database, folder: string, file: string, steps: readonly Migration[]): void {
  refuseNewer(db, folder, steps);
  // A file without the right to write opens all the same, for reading only: better to hear of it now than in the burn.
  db.exec(`BEGIN IMMEDIATE; PRAGMA user_version = ${layoutOf(db)}; ROLLBACK`);
  db.pragma('journal_mode = WAL');
  // The default under WAL may lose the last transactions with the power; a burn cannot be repeated this week.
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  db.pragma(`journal_size_limit = ${LOG_LIMIT_BYTES}`);
  const verdict = db.pragma('quick_check(1)', { simple: true }) as string;
  if (verdict !== 'ok') throw new AppError('store/damaged', { file, raw: verdict });
  migrate(db, folder, steps);
  db.exec("DELETE FROM burn WHERE NOT EXISTS (SELECT 1 FROM document WHERE burn_key = burn.key AND kind = 'burn')");
}

function assemble(
  db: Database.Database,
  folder: string,
  nowMs: () => number,
  lock?: ReturnType<typeof lockFolder>,
): Store {
  const burns = createShortKeys(db, 'burn');
  const boards = createShortKeys(db, 'board');
  const remove = db.prepare<[string]>('DELETE FROM burn WHERE id = ?');
  return {
    folder,
    documents: createDocuments(db, burns, nowMs),
    scans: createScans(db, burns, boards),
    gaps: createGaps(db, burns),
    derived: createDerived(db, burns),
    expectBurn: (burnId) => void burns.ensure(burnId),
    together: (work) => db.transaction(work).immediate(),
    removeBurn: (burnId) => void remove.run(burnId),
    checkpoint: () => void db.pragma('wal_checkpoint(TRUNCATE)'),
    backup: async (to) => void (await db.backup(to)),
    faults: () => faultsOf(db),
    announce: (address) => lock?.announce(address),
    close() {
      db.close();
      lock?.release();
    },
  };
}

function faultsOf(db: Database.Database): string[] {
  const found = db.pragma('integrity_check') as { integrity_check: string }[];
  const orphans = db.pragma('foreign_key_check') as { table: string; rowid: number | null; parent: string }[];
  return [
    ...found.map((row) => row.integrity_check).filter((text) => text !== 'ok'),
    ...orphans.map(({ table, rowid, parent }) => `${table} ${rowid ?? ''} belongs to no ${parent}`),
  ];
}

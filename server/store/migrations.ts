import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';

/** One step forward. Steps are never changed once released, and there is no way back: that is what the backup is for. */
export interface Migration {
  toVersion: number;
  sql: string;
}

export const migrations: readonly Migration[] = [
  {
    toVersion: 1,
    sql: `
      CREATE TABLE burn (key INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE) STRICT;
      CREATE TABLE board (key INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE) STRICT;

      CREATE TABLE document (
        key INTEGER PRIMARY KEY,
        kind TEXT NOT NULL,
        id TEXT NOT NULL,
        version INTEGER NOT NULL CHECK (version > 0),
        burn_key INTEGER REFERENCES burn (key) ON DELETE CASCADE,
        body TEXT NOT NULL CHECK (json_valid(body)),
        withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1)),
        edited_at_ms INTEGER NOT NULL,
        edited_by TEXT,
        UNIQUE (kind, id, version)
      ) STRICT;
      CREATE INDEX document_of_burn ON document (burn_key, kind) WHERE burn_key IS NOT NULL;
      CREATE TRIGGER document_versions_never_change BEFORE UPDATE ON document
        BEGIN SELECT RAISE (ABORT, 'a kept version never changes'); END;

      CREATE TABLE scan (
        burn_key INTEGER NOT NULL REFERENCES burn (key) ON DELETE CASCADE,
        board_key INTEGER NOT NULL REFERENCES board (key),
        elapsed_us INTEGER NOT NULL,
        boot INTEGER NOT NULL,
        sequence INTEGER NOT NULL,
        clash INTEGER NOT NULL,
        uptime_ms INTEGER NOT NULL,
        arrived_us INTEGER NOT NULL,
        readings BLOB NOT NULL,
        PRIMARY KEY (burn_key, board_key, elapsed_us, boot, sequence, clash)
      ) STRICT, WITHOUT ROWID;
      CREATE UNIQUE INDEX scan_once ON scan (burn_key, board_key, boot, sequence, clash);
      CREATE TRIGGER readings_never_change BEFORE UPDATE ON scan
        BEGIN SELECT RAISE (ABORT, 'a kept reading never changes'); END;

      CREATE TABLE gap (
        key INTEGER PRIMARY KEY,
        burn_key INTEGER NOT NULL REFERENCES burn (key) ON DELETE CASCADE,
        board_id TEXT,
        from_us INTEGER NOT NULL,
        to_us INTEGER NOT NULL,
        cause TEXT NOT NULL
      ) STRICT;
      CREATE INDEX gap_of_burn ON gap (burn_key);

      CREATE TABLE derived (
        burn_key INTEGER NOT NULL REFERENCES burn (key) ON DELETE CASCADE,
        name TEXT NOT NULL,
        stamp TEXT NOT NULL,
        value TEXT NOT NULL CHECK (json_valid(value)),
        PRIMARY KEY (burn_key, name)
      ) STRICT;
    `,
  },
  {
    // Which scans a gap stands for, so that they can still be fetched after a restart or the end of the burn.
    toVersion: 2,
    sql: `
      ALTER TABLE gap ADD COLUMN state TEXT NOT NULL DEFAULT 'told' CHECK (state IN ('open', 'told', 'superseded'));
      ALTER TABLE gap ADD COLUMN boot INTEGER;
      ALTER TABLE gap ADD COLUMN from_sequence INTEGER;
      ALTER TABLE gap ADD COLUMN to_sequence INTEGER;
      ALTER TABLE gap ADD COLUMN before_ms INTEGER;
      ALTER TABLE gap ADD COLUMN after_ms INTEGER;
      CREATE INDEX gap_of_board ON gap (board_id, boot) WHERE boot IS NOT NULL AND state <> 'superseded';
    `,
  },
];

export function layoutOf(db: Database): number {
  return db.pragma('user_version', { simple: true }) as number;
}

/** @throws AppError store/newer when a later version of the service wrote these data; nothing has been touched then */
export function refuseNewer(db: Database, folder: string, steps: readonly Migration[]): void {
  const known = steps.at(-1)?.toVersion ?? 0;
  const found = layoutOf(db);
  if (found > known) throw new AppError('store/newer', { folder, found, known });
}

/** Brings the layout forward step by step, with a complete copy of the data in `backups/` before each. */
export function migrate(db: Database, folder: string, steps: readonly Migration[]): void {
  const isNew = layoutOf(db) === 0;
  for (const { toVersion, sql } of steps) {
    const found = layoutOf(db);
    if (toVersion <= found) continue;
    if (!isNew) copyBefore(db, folder, found, toVersion);
    const step = db.transaction(() => {
      db.exec(sql);
      db.pragma(`user_version = ${toVersion}`);
    });
    step.immediate();
  }
}

function copyBefore(db: Database, folder: string, found: number, toVersion: number): void {
  const backups = join(folder, 'backups');
  mkdirSync(backups, { recursive: true });
  const file = join(backups, `layout-${found}-before-${toVersion}.db`);
  // One left by an attempt that failed half-way: the database has not moved since, so the new copy says the same.
  rmSync(file, { force: true });
  db.prepare('VACUUM INTO ?').run(file);
}

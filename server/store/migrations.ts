import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { checkedTables, checksumOf } from './row-checksums.ts';

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
  {
    // Readings as blocks of columns. A row may go only within a stretch that was proven to lie in a block, or where the same scan
    // stands under another board of the burn, or with the burn itself; a block only into a longer one that was proven to hold it,
    // or where as many rows stand in its place.
    toVersion: 3,
    sql: `
      CREATE TABLE block (
        key INTEGER PRIMARY KEY AUTOINCREMENT,
        burn_key INTEGER NOT NULL REFERENCES burn (key) ON DELETE CASCADE,
        board_key INTEGER NOT NULL REFERENCES board (key),
        scans INTEGER NOT NULL CHECK (scans > 0),
        first_us INTEGER NOT NULL,
        first_boot INTEGER NOT NULL,
        first_sequence INTEGER NOT NULL,
        first_clash INTEGER NOT NULL,
        last_us INTEGER NOT NULL,
        last_boot INTEGER NOT NULL,
        last_sequence INTEGER NOT NULL,
        last_clash INTEGER NOT NULL,
        rows_of_512 BLOB NOT NULL,
        rows_of_128 BLOB NOT NULL,
        rows_of_32 BLOB NOT NULL,
        columns BLOB NOT NULL
      ) STRICT;
      CREATE INDEX block_in_time ON block (burn_key, board_key, first_us);
      CREATE TRIGGER blocks_never_change BEFORE UPDATE ON block
        BEGIN SELECT RAISE (ABORT, 'a kept reading never changes'); END;

      CREATE TABLE block_numbers (
        burn_key INTEGER NOT NULL,
        board_key INTEGER NOT NULL,
        boot INTEGER NOT NULL,
        last_sequence INTEGER NOT NULL,
        first_sequence INTEGER NOT NULL,
        block_key INTEGER NOT NULL REFERENCES block (key) ON DELETE CASCADE,
        PRIMARY KEY (burn_key, board_key, boot, last_sequence, block_key)
      ) STRICT, WITHOUT ROWID;
      CREATE INDEX numbers_of_block ON block_numbers (block_key);

      -- The stretch that is being moved, in which the rows have been compared with their block. Empty but inside that transaction.
      CREATE TABLE proven_stretch (
        block_key INTEGER PRIMARY KEY REFERENCES block (key),
        burn_key INTEGER NOT NULL,
        board_key INTEGER NOT NULL,
        first_us INTEGER NOT NULL,
        last_us INTEGER NOT NULL
      ) STRICT;
      CREATE TRIGGER readings_never_go BEFORE DELETE ON scan
        WHEN NOT EXISTS (
            SELECT 1 FROM proven_stretch WHERE OLD.elapsed_us BETWEEN first_us AND last_us
              AND burn_key = OLD.burn_key AND board_key = OLD.board_key)
          AND EXISTS (SELECT 1 FROM burn WHERE key = OLD.burn_key)
          AND NOT EXISTS (
            SELECT 1 FROM board CROSS JOIN scan AS same ON same.board_key = board.key
            WHERE same.burn_key = OLD.burn_key AND same.board_key <> OLD.board_key AND same.boot = OLD.boot
              AND same.sequence = OLD.sequence AND same.uptime_ms = OLD.uptime_ms AND same.readings = OLD.readings)
        BEGIN SELECT RAISE (ABORT, 'a kept reading never goes'); END;
      CREATE TRIGGER blocks_never_go BEFORE DELETE ON block
        WHEN NOT EXISTS (
            SELECT 1 FROM proven_stretch WHERE block_key <> OLD.key AND first_us <= OLD.first_us AND last_us >= OLD.last_us
              AND burn_key = OLD.burn_key AND board_key = OLD.board_key)
          AND EXISTS (SELECT 1 FROM burn WHERE key = OLD.burn_key)
          AND OLD.scans > (
            SELECT count(*) FROM scan WHERE burn_key = OLD.burn_key AND board_key = OLD.board_key
              AND (elapsed_us, boot, sequence, clash)
                BETWEEN (OLD.first_us, OLD.first_boot, OLD.first_sequence, OLD.first_clash)
                AND (OLD.last_us, OLD.last_boot, OLD.last_sequence, OLD.last_clash))
        BEGIN SELECT RAISE (ABORT, 'a kept reading never goes'); END;
    `,
  },
  {
    // With every row a checksum of what was written.
    toVersion: 4,
    sql: `
      DROP TRIGGER document_versions_never_change;
      ${checkedTables
        .map(
          (table) => `
            ALTER TABLE ${table} ADD COLUMN checksum INTEGER;
            UPDATE ${table} SET checksum = ${checksumOf(table)};`,
        )
        .join('')}
      CREATE TRIGGER document_versions_never_change BEFORE UPDATE ON document
        BEGIN SELECT RAISE (ABORT, 'a kept version never changes'); END;
    `,
  },
];

/** Where the layout stands in the header of a database file (SQLite, "Database File Format": user version). */
export const LAYOUT_AT = 60;

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

/** The folder of the data: nobody else on the machine looks into it. */
import { chmodSync, existsSync, mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../base/app-error.ts';

export const DATABASE = 'stovebench.db';
/** SQLite's write-ahead log: what is not in the database file yet. */
export const LOG = `${DATABASE}-wal`;
export const LOCK = 'in-use.lock';
/** Where a second copy of the service finds the first. */
export const NOTE = 'in-use.json';
/** How the database file was when it was last closed whole. */
export const CLOSED = 'closed.json';

const OWNER_ONLY = 0o700;
const OTHERS = 0o077;
/** Set on folders that many people write to, such as /tmp. */
const SHARED = 0o1000;

/**
 * Makes the folder where there is none, and closes one that was open to others. One that others share, or that holds other things and no
 * data yet, stays as it is. On Windows a folder of a person is closed by itself.
 * @throws AppError store/folder-for-file; the system's error where it cannot be made
 */
export function claimDataFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: OWNER_ONLY });
  const files = readdirSync(folder);
  for (const name of [DATABASE, LOG, LOCK, NOTE, CLOSED]) {
    if (statSync(join(folder, name), { throwIfNoEntry: false })?.isDirectory()) {
      throw new AppError('store/folder-for-file', { file: join(folder, name) });
    }
  }
  if (process.platform === 'win32' || (files.length > 0 && !files.includes(DATABASE))) return;
  const { mode, uid } = statSync(folder);
  if ((mode & OTHERS) !== 0 && (mode & SHARED) === 0 && uid === process.getuid?.()) chmodSync(folder, OWNER_ONLY);
}

/**
 * For work on data that must be there already: another folder is a mistake in its name, and nothing is made in it.
 * @throws AppError store/no-bench
 */
export function requireBench(folder: string): void {
  if (existsSync(join(folder, DATABASE)) || existsSync(join(folder, LOG))) return;
  throw new AppError('store/no-bench', { folder, file: DATABASE });
}

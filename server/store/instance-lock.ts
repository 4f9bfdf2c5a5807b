import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { LOCK, NOTE } from './data-folder.ts';
import { readable, sqliteCode } from './sqlite-errors.ts';

export interface InstanceLock {
  /** Leaves a word for a second copy: where this one answers. */
  announce(address: string): void;
  release(): void;
  /** The same, and the folder is as it was before. */
  undo(): void;
}

/**
 * Holds a data folder for one process. The lock is one of the operating system (taken through an empty database), so
 * that it ends with the process, however that ends, and no stale file can lock anybody out.
 * @throws AppError store/in-use, store/folder-not-writable
 */
export function lockFolder(folder: string): InstanceLock {
  const note = join(folder, NOTE);
  const file = join(folder, LOCK);
  const isNew = !existsSync(file);
  let lock: Database.Database | undefined;
  try {
    lock = new Database(file, { timeout: 0 });
    lock.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    lock?.close();
    if (sqliteCode(error)?.startsWith('SQLITE_BUSY')) throw new AppError('store/in-use', { folder, ...readNote(note) });
    throw readable(error, folder);
  }
  const held = lock;
  return {
    announce: (address) => writeFileSync(note, JSON.stringify({ address, processId: process.pid })),
    release() {
      rmSync(note, { force: true });
      held.close();
    },
    undo() {
      // Before it is let go: whoever opens it in between must find it held.
      if (isNew) rmSync(file, { force: true });
      held.close();
    },
  };
}

/** The note may be missing (the other copy is just starting) or unreadable; the refusal then does without it. */
function readNote(note: string): Record<string, string> {
  try {
    const { address, processId } = JSON.parse(readFileSync(note, 'utf8')) as Record<string, unknown>;
    return { address: String(address), processId: String(processId) };
  } catch {
    return {};
  }
}

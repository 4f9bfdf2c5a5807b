import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { readable, sqliteCode } from './sqlite-errors.ts';

export interface InstanceLock {
  /** Leaves a word for a second copy: where this one answers. */
  announce(address: string): void;
  release(): void;
}

/**
 * Holds a data folder for one process. The lock is one of the operating system (taken through an empty database), so
 * that it ends with the process, however that ends, and no stale file can lock anybody out.
 * @throws AppError store/in-use, store/folder-not-writable
 */
export function lockFolder(folder: string): InstanceLock {
  const note = join(folder, 'in-use.json');
  let lock: Database.Database | undefined;
  try {
    lock = new Database(join(folder, 'in-use.lock'), { timeout: 0 });
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

import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../base/app-error.ts';
import { DATABASE } from '../store/data-folder.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Store } from '../store/store.ts';
import { type BackupList, copyFiles, dataFiles, LIST } from './backup-folder.ts';

export interface BackupOptions {
  store: Store;
  /** Opens the copy in a folder, reads all of it and describes it. */
  prove(folder: string): Promise<BackupList>;
  /** Aborted when nobody wants it any more. */
  signal?: AbortSignal;
}

/**
 * Backs the data up into `folder`, which must not exist, while the service keeps running. The copy is opened once and
 * every burn in it is verified, so that no backup is made that cannot be restored.
 * @throws AppError backup/exists, store/folder-not-writable, store/full, worker/cancelled; nothing is left in `folder` then
 */
export async function makeBackup(folder: string, options: BackupOptions): Promise<BackupList> {
  if (existsSync(folder) && readdirSync(folder).length > 0) throw new AppError('backup/exists', { folder });
  // Under another name until complete: an interrupted backup must not look like a backup.
  const partial = `${folder}.partial`;
  try {
    rmSync(partial, { recursive: true, force: true });
    mkdirSync(partial, { recursive: true });
    const { store, prove, signal } = options;
    await store.backup(join(partial, DATABASE), signal);
    const others = dataFiles(store.folder).filter((path) => path !== DATABASE);
    await copyFiles(store.folder, partial, others, signal);
    const list = await prove(partial);
    writeFileSync(join(partial, LIST), JSON.stringify(list, null, 2));
    rmSync(folder, { recursive: true, force: true });
    renameSync(partial, folder);
    return list;
  } catch (error) {
    rmSync(partial, { recursive: true, force: true });
    throw readable(error, folder);
  }
}

/** A folder name that sorts by time and is valid on every system. */
export function backupName(nowMs: number): string {
  return new Date(nowMs)
    .toISOString()
    .replace(/\.\d+Z$/, 'Z')
    .replaceAll(':', '');
}

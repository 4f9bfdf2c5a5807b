import { copyFileSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { AppError } from '../base/app-error.ts';
import type { Analyst } from '../results/analyst.ts';
import { createResults } from '../results/results.ts';
import { CLOSED, DATABASE, LOCK, NOTE } from '../store/data-folder.ts';
import { openStore } from '../store/open-store.ts';
import { readable } from '../store/sqlite-errors.ts';
import type { Store } from '../store/store.ts';
import { type BackupList, dataFiles, describeFile, LIST } from './backup-folder.ts';
import { proveBurn } from './burn-proof.ts';

export interface BackupOptions {
  store: Store;
  analyst: Analyst;
  /** UTC milliseconds, for the list. */
  nowMs: number;
  /** Version of the software. */
  version: string;
  onProgress?: (done: number, of: number) => void;
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
    await options.store.backup(join(partial, DATABASE));
    copyPhotos(options.store.folder, partial);
    const list = await describe(partial, options);
    writeFileSync(join(partial, LIST), JSON.stringify(list, null, 2));
    rmSync(folder, { recursive: true, force: true });
    renameSync(partial, folder);
    return list;
  } catch (error) {
    rmSync(partial, { recursive: true, force: true });
    throw readable(error, folder);
  }
}

function copyPhotos(from: string, to: string): void {
  for (const path of dataFiles(from)) {
    if (path === DATABASE) continue;
    mkdirSync(dirname(join(to, path)), { recursive: true });
    copyFileSync(join(from, path), join(to, path));
  }
}

async function describe(folder: string, options: BackupOptions): Promise<BackupList> {
  const { analyst, nowMs, version, onProgress, signal } = options;
  const copy = openStore(folder, { nowMs: () => nowMs });
  const burns: BackupList['burns'] = [];
  try {
    const results = createResults(copy, analyst);
    const stored = copy.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
    for (const { id, body } of stored) {
      signal?.throwIfAborted();
      const analysis = body.status === 'running' ? undefined : await results.analysis(id, undefined, signal);
      burns.push(await proveBurn(copy, id, analysis));
      onProgress?.(burns.length, stored.length);
    }
  } finally {
    copy.close();
  }
  for (const name of [LOCK, NOTE, CLOSED]) rmSync(join(folder, name), { force: true });
  const files: BackupList['files'] = [];
  for (const path of dataFiles(folder)) files.push(await describeFile(folder, path));
  return { format: 'stovebench-backup', version: 1, software: version, madeAtUtcMs: nowMs, files, burns };
}

/** A folder name that sorts by time and is valid on every system. */
export function backupName(nowMs: number): string {
  return new Date(nowMs)
    .toISOString()
    .replace(/\.\d+Z$/, 'Z')
    .replaceAll(':', '');
}

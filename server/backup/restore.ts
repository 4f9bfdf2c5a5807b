import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import { AppError } from '../base/app-error.ts';
import type { Analyst } from '../results/analyst.ts';
import { recompute } from '../results/stored-analysis.ts';
import { DATABASE } from '../store/data-folder.ts';
import { lockFolder } from '../store/instance-lock.ts';
import { openStore } from '../store/open-store.ts';
import type { Store } from '../store/store.ts';
import { type BackupList, checkFiles, copyFiles, readList } from './backup-folder.ts';
import { proveBurn } from './burn-proof.ts';

export interface RestoreOptions {
  analyst: Analyst;
  nowMs: number;
  /** Whether existing data may be moved aside. */
  replace: boolean;
  onProgress?: (done: number, of: number) => void;
  /** Aborted when nobody wants it any more. */
  signal?: AbortSignal;
}

export interface Restored {
  folder: string;
  burns: number;
  /** Where the replaced data are now. */
  before?: string;
}

/**
 * Restores a backup into `folder`. It is verified first, in a separate folder: every file by its checksum, the database
 * by its own check, every burn by the checksum of its record and, with the same version of the method, of its results.
 * @throws AppError backup/not-a-backup, backup/damaged, backup/results-differ, backup/in-the-way, store/in-use,
 *   store/newer, store/damaged, and the reason of the signal; `folder` is unchanged then
 */
export async function restore(backup: string, folder: string, options: RestoreOptions): Promise<Restored> {
  const list = readList(backup);
  const { signal } = options;
  await checkFiles(backup, list, signal);
  const occupied = existsSync(join(folder, DATABASE)) || (existsSync(folder) && readdirSync(folder).length > 0);
  if (occupied && !options.replace) throw new AppError('backup/in-the-way', { folder });
  const incoming = `${folder}.restoring`;
  rmSync(incoming, { recursive: true, force: true });
  try {
    const paths = list.files.map(({ path }) => path);
    await copyFiles(backup, incoming, paths, signal);
    await prove(incoming, list, options);
    return { folder, burns: list.burns.length, ...putInPlace(incoming, folder, occupied, options.nowMs) };
  } finally {
    rmSync(incoming, { recursive: true, force: true });
  }
}

async function prove(folder: string, list: BackupList, options: RestoreOptions): Promise<void> {
  const store = openStore(folder, { nowMs: () => options.nowMs });
  try {
    const faults = store.faults();
    if (faults.length > 0) throw new AppError('backup/damaged', { file: DATABASE, raw: faults[0]! });
    for (const [number, expected] of list.burns.entries()) {
      options.signal?.throwIfAborted();
      await proveOne(store, expected, options.analyst);
      options.onProgress?.(number + 1, list.burns.length);
    }
  } finally {
    store.close();
  }
}

async function proveOne(store: Store, expected: BackupList['burns'][number], analyst: Analyst): Promise<void> {
  const { id, title } = expected;
  const differs = (what: string) => new AppError('backup/results-differ', { title, what });
  if (!store.documents.get('burn', id)) throw differs('missing');
  const comparable = expected.results?.methodVersion === METHOD_VERSION;
  const found = await proveBurn(store, id, comparable ? await recompute(store, analyst, id) : undefined);
  if (found.recordSha256 !== expected.recordSha256) throw differs('record');
  if (comparable && found.results?.sha256 !== expected.results?.sha256) throw differs('results');
}

/** @throws AppError store/in-use when a service holds the existing data */
function putInPlace(incoming: string, folder: string, occupied: boolean, nowMs: number): { before?: string } {
  mkdirSync(dirname(folder), { recursive: true });
  if (!occupied) {
    rmSync(folder, { recursive: true, force: true });
    renameSync(incoming, folder);
    return {};
  }
  lockFolder(folder).release();
  const before = `${folder}.before-${new Date(nowMs)
    .toISOString()
    .replace(/\.\d+Z$/, 'Z')
    .replaceAll(':', '')}`;
  renameSync(folder, before);
  renameSync(incoming, folder);
  return { before };
}

import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { errorSentence } from '../../shared/language/errors/errors.ts';
import { type BackupList, checkFiles, copyFiles, isBackup, readList } from '../backup/backup-folder.ts';
import { salvage } from '../backup/salvage.ts';
import { verify } from '../backup/verify.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import { type Command, exitCodes, print, printProgress, readArgs, word } from '../base/command-options.ts';
import { terminalLanguage } from '../base/start-up.ts';
import { isArchive, readPackageFile } from '../imports/package-file.ts';
import { createAnalyst } from '../results/analyst.ts';
import { requireBench } from '../store/data-folder.ts';
import { openStore } from '../store/open-store.ts';
import type { Salvaged } from '../store/salvage.ts';
import { benchWorker } from '../worker/bench-worker.ts';
import { answered, dataFolder, withClient } from './client.ts';
import { withInterruption } from './interruption.ts';

export const command: Command = {
  help: () => word('verify'),
  run: (args) => withInterruption((interrupted) => run(args, interrupted)),
};

async function run(args: readonly string[], interrupted: AbortSignal): Promise<number> {
  const { values, positionals } = readArgs(
    'verify',
    { data: { type: 'string' }, salvage: { type: 'string' } },
    args,
    1,
  );
  const folder = positionals[0] === undefined ? dataFolder(values) : resolve(positionals[0]);
  if (values.salvage !== undefined) return salvageInto(folder, resolve(values.salvage), interrupted);
  if (statSync(folder, { throwIfNoEntry: false })?.isFile()) return verifyPackage(folder);
  if (isBackup(folder)) {
    const list = readList(folder);
    await checkFiles(folder, list, interrupted);
    return onCopyOf(folder, list, interrupted);
  }
  requireBench(folder);
  try {
    return await verifyFolder(folder, interrupted);
  } catch (error) {
    if (!isAppError(error, 'store/in-use') || error.params.address === undefined) throw error;
    return verifyService(folder, interrupted);
  }
}

/** Copies what can be read of a damaged bench into a new one, in a folder of its own, and prints what that contains. */
async function salvageInto(folder: string, target: string, interrupted: AbortSignal): Promise<number> {
  const { rows, mended, leftOut } = salvage(folder, target);
  return verifyFolder(target, interrupted, { folder: target, rows, mended, leftOut });
}

/** Verifies every file of a package by its checksum, and that its records can be read. */
function verifyPackage(file: string): number {
  const bytes = readFileSync(file);
  const name = basename(file);
  try {
    if (!isArchive(bytes)) throw new AppError('import/package-broken', { file: name, raw: 'zip' });
    const burns = readPackageFile(bytes, name).map(({ record: { id, title } }) => ({ id, title }));
    print({ ok: true, burns });
    return exitCodes.done;
  } catch (error) {
    if (!isAppError(error)) throw error;
    print({ ok: false, faults: [errorSentence(terminalLanguage, error.code, error.params)] });
    return exitCodes.found;
  }
}

async function verifyFolder(
  folder: string,
  interrupted: AbortSignal,
  salvaged?: Salvaged & { folder: string },
): Promise<number> {
  const store = openStore(folder, { nowMs: Date.now });
  const worker = benchWorker();
  try {
    const verdict = await verify(store, createAnalyst(worker), (done, of) => {
      interrupted.throwIfAborted();
      printProgress(word('proving', { done, of }));
    });
    const ok = verdict.ok && (salvaged?.leftOut.length ?? 0) === 0;
    print({ ...verdict, ok, ...(salvaged && { salvaged }) });
    return ok ? exitCodes.done : exitCodes.found;
  } finally {
    await worker.close();
    store.close();
  }
}

/** A running service has exclusive access to the data; a backup made now has the same content. */
async function verifyService(folder: string, interrupted: AbortSignal): Promise<number> {
  const backup = await withClient({ data: folder }, (client) =>
    answered<{ folder: string }>(client.request('POST', '/api/backups')),
  );
  try {
    return await verifyFolder(backup.folder, interrupted);
  } finally {
    rmSync(backup.folder, { recursive: true, force: true });
  }
}

/** Opening a database writes to its folder, and a backup must stay unchanged. */
async function onCopyOf(backup: string, { files }: BackupList, interrupted: AbortSignal): Promise<number> {
  const copy = mkdtempSync(join(tmpdir(), 'stovebench-verify-'));
  try {
    const paths = files.map(({ path }) => path);
    await copyFiles(backup, copy, paths, interrupted);
    return await verifyFolder(copy, interrupted);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

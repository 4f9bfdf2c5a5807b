/** Creates a new bench from the readable part of a damaged one. */
import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AppError, isAppError } from '../base/app-error.ts';
import { BENCH } from '../identity/bench-identity.ts';
import { PHOTOS } from '../photos/photos.ts';
import { lockFolder } from '../store/instance-lock.ts';
import { type Salvaged, salvageDatabase } from '../store/salvage.ts';

/**
 * Writes what can be read in `folder` into `target`; `folder` stays unchanged.
 * @throws AppError store/in-use; backup/exists when there is something in `target`; store/no-bench, store/damaged when
 *   nothing can be read
 */
export function salvage(folder: string, target: string): Salvaged {
  if (existsSync(target) && readdirSync(target).length > 0) throw new AppError('backup/exists', { folder: target });
  const letGo = heldWhereWritable(folder);
  try {
    return salvageFiles(folder, target);
  } finally {
    letGo();
  }
}

function salvageFiles(folder: string, target: string): Salvaged {
  const salvaged = salvageDatabase(folder, target);
  if (existsSync(join(folder, PHOTOS))) cpSync(join(folder, PHOTOS), join(target, PHOTOS), { recursive: true });
  if (isReadable(join(folder, BENCH))) cpSync(join(folder, BENCH), join(target, BENCH));
  else if (existsSync(join(folder, BENCH))) salvaged.leftOut.push(BENCH);
  return salvaged;
}

/**
 * Locks the folder, since a service must not write meanwhile; a folder that cannot be written, as on a card mounted
 * read-only, needs no lock.
 */
function heldWhereWritable(folder: string): () => void {
  try {
    return lockFolder(folder).undo;
  } catch (error) {
    if (isAppError(error, 'store/in-use')) throw error;
    return () => {};
  }
}

function isReadable(file: string): boolean {
  try {
    JSON.parse(readFileSync(file, 'utf8'));
    return true;
  } catch {
    return false;
  }
}

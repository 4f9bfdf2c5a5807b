import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../../server/base/app-error.ts';
import { lockFolder } from '../../server/store/instance-lock.ts';

/** A file that states that everything next to it was made by the demonstration and may be deleted. */
const NOTE = 'this-is-demonstration-data.txt';
const NOTE_TEXT = 'Everything in this folder is simulated. "npm run demo -- --remove" deletes it.\n';

/**
 * Creates the folder, or uses the existing one of an earlier demonstration.
 * @throws AppError demo/folder-not-demo when it contains anything else
 */
export function takeFolder(folder: string): void {
  refuseOthers(folder);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, NOTE), NOTE_TEXT);
}

/**
 * Deletes the folder and everything in it.
 * @returns false when there was none
 * @throws AppError demo/folder-not-demo, store/in-use while a service runs on it
 */
export function removeFolder(folder: string): boolean {
  if (!existsSync(folder)) return false;
  refuseOthers(folder);
  lockFolder(folder).release();
  rmSync(folder, { recursive: true });
  return true;
}

function refuseOthers(folder: string): void {
  const holdsSomething = existsSync(folder) && readdirSync(folder).length > 0;
  if (holdsSomething && !existsSync(join(folder, NOTE))) throw new AppError('demo/folder-not-demo', { folder });
}

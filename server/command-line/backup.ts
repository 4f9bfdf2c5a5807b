import { cpSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, print, readArgs, word } from '../base/command-options.ts';
import { readable } from '../store/sqlite-errors.ts';
import { answered, clientOptions, requireBenchOf, withClient } from './client.ts';

interface Backup {
  folder: string;
  burns: number;
  madeAtUtcMs: number;
}

export const command: Command = {
  help: () => word('backup'),
  async run(args) {
    const { values, positionals } = readArgs('backup', clientOptions, args, 1);
    const target = positionals[0] === undefined ? undefined : resolve(positionals[0]);
    if (target && existsSync(target) && readdirSync(target).length > 0) {
      throw new AppError('backup/exists', { folder: target });
    }
    requireBenchOf(values);
    return withClient(values, async (client) => {
      const made = await answered<Backup>(client.request('POST', '/api/backups'));
      if (target) move(made.folder, target);
      print({ ...made, folder: target ?? made.folder });
      return exitCodes.done;
    });
  },
};

/** @throws AppError store/folder-not-writable, store/full; the backup then stays where the service made it */
function move(from: string, to: string): void {
  try {
    mkdirSync(dirname(to), { recursive: true });
    rmSync(to, { recursive: true, force: true });
    renameSync(from, to);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EXDEV') throw readable(error, to);
    // To another disk it is copied, under another name until complete.
    cpSync(from, `${to}.partial`, { recursive: true });
    renameSync(`${to}.partial`, to);
    rmSync(from, { recursive: true });
  }
}

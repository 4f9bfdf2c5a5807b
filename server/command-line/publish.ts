import { resolve } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import type { Bench } from '../../shared/contract/bench.ts';
import type { Publication } from '../../shared/contract/publication.ts';
import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, print, printProgress, readArgs, word } from '../base/command-options.ts';
import { answered, type Client, clientOptions, requireBenchOf, withClient } from './client.ts';

const LOOK_EVERY_MS = 200;

export const command: Command = {
  help: () => word('publish'),
  async run(args) {
    const { values, positionals } = readArgs('publish', { ...clientOptions, name: { type: 'string' } }, args, 1);
    const [folder] = positionals;
    if (folder === undefined) throw new AppError('command/argument-missing', { command: 'publish', what: 'FOLDER' });
    requireBenchOf(values);
    return withClient(values, async (client) => {
      const bench = await answered<Bench>(
        values.name === undefined
          ? client.request('GET', '/api/bench')
          : client.request('PUT', '/api/bench', { json: { name: values.name } }),
      );
      const done = await published(client, resolve(folder));
      print({
        folder: done.folder,
        bench,
        files: done.totalFiles,
        burns: done.burns,
        unfinished: done.unfinished,
        elsewhere: done.elsewhere,
      });
      return exitCodes.done;
    });
  },
};

/** @throws AppError why it failed */
async function published(client: Client, folder: string): Promise<Publication> {
  let state = await answered<Publication>(client.request('POST', '/api/dataset', { json: { folder } }));
  while (state.phase === 'publishing') {
    await delay(LOOK_EVERY_MS);
    state = await answered<Publication>(client.request('GET', '/api/dataset'));
    if (state.totalFiles > 0) printProgress(word('publishing', { done: state.doneFiles, of: state.totalFiles }));
  }
  // The codes of a failed run are those of the table of errors.
  if (state.problem) throw new AppError(state.problem.code as ErrorCode, state.problem.params);
  return state;
}

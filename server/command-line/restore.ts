import { resolve } from 'node:path';
import { restore } from '../backup/restore.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, print, printProgress, readArgs, word } from '../base/command-options.ts';
import { createAnalyst } from '../results/analyst.ts';
import { benchWorker } from '../worker/bench-worker.ts';
import { dataFolder } from './client.ts';
import { withInterruption } from './interruption.ts';

export const command: Command = {
  help: () => word('restore'),
  async run(args) {
    const { values, positionals } = readArgs(
      'restore',
      { data: { type: 'string' }, replace: { type: 'boolean' } },
      args,
      1,
    );
    const [backup] = positionals;
    if (backup === undefined) {
      throw new AppError('command/argument-missing', { command: 'restore', what: 'BACKUP' });
    }
    const worker = benchWorker();
    try {
      const restored = await withInterruption((signal) =>
        restore(resolve(backup), dataFolder(values), {
          analyst: createAnalyst(worker),
          nowMs: Date.now(),
          replace: values.replace ?? false,
          onProgress: (done, of) => printProgress(word('proving', { done, of })),
          signal,
        }),
      );
      print(restored);
      return exitCodes.done;
    } finally {
      await worker.close();
    }
  },
};

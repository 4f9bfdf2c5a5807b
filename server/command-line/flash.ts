import { setTimeout } from 'node:timers/promises';
import { type Flashing, firmwareNames } from '../../shared/contract/flashing.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, oneOf, print, printProgress, readArgs, word } from '../base/command-options.ts';
import { answered, clientOptions, withClient } from './client.ts';

const options = { ...clientOptions, firmware: { type: 'string' } } as const;
const LOOK_MS = 200;

export const command: Command = {
  help: () => word('flash'),
  async run(args) {
    const { values, positionals } = readArgs('flash', options, args, 1);
    const [path] = positionals;
    if (path === undefined) throw new AppError('command/argument-missing', { command: 'flash', what: 'PORT' });
    const firmware = oneOf('--firmware', values.firmware, firmwareNames);
    await withClient(values, async (client) => {
      let now = await answered<Flashing>(
        client.request('POST', '/api/flashing', { json: { path, ...(firmware && { firmware }) } }),
      );
      for (let published = ''; now.phase !== 'done' && now.phase !== 'failed'; ) {
        const percent = now.totalBytes > 0 ? Math.floor((now.doneBytes / now.totalBytes) * 10) * 10 : 0;
        const line = word(now.phase === 'idle' ? 'connecting' : now.phase, { percent });
        if (line !== published) printProgress(line);
        published = line;
        await setTimeout(LOOK_MS);
        now = await answered<Flashing>(client.request('GET', '/api/flashing'));
      }
      const { problem } = now;
      if (problem) throw new AppError(problem.code as 'flash/interrupted', problem.params);
      print(now.board);
    });
    return exitCodes.done;
  },
};

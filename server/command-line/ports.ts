import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, print, readArgs, word } from '../base/command-options.ts';
import { listPorts } from '../bridge/port-listing.ts';
import { serialPortFactory } from '../bridge/serial-port-factory.ts';

export const command: Command = {
  help: () => word('ports'),
  async run(args) {
    readArgs('ports', {}, args, 0);
    const { ports, problem } = await listPorts(serialPortFactory);
    if (problem) throw new AppError('probe/ports-not-listed', { raw: problem.raw });
    print({ ports });
    return exitCodes.done;
  },
};

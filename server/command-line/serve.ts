import { type Command, readArgs, word } from '../base/command-options.ts';

const options = { host: { type: 'string' }, port: { type: 'string' }, data: { type: 'string' } } as const;

export const command: Command = {
  help: () => word('serve'),
  /** Does not end by itself: the service runs until it receives a signal. */
  async run(args) {
    const { values } = readArgs('serve', options, args, 0);
    // The service reads its settings from the environment, however it is started.
    if (values.host !== undefined) process.env.STOVEBENCH_HOST = values.host;
    if (values.port !== undefined) process.env.STOVEBENCH_PORT = values.port;
    if (values.data !== undefined) process.env.STOVEBENCH_DATA = values.data;
    await import('../main.ts');
    return new Promise<never>(() => {});
  },
};

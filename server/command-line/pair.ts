import type { Pairing, PairingCode } from '../../shared/contract/pairing.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, print, printError, readArgs, word } from '../base/command-options.ts';
import { answered, clientOptions, serviceAddress, withClient } from './client.ts';

const options = { ...clientOptions, list: { type: 'boolean' }, revoke: { type: 'string' } } as const;

export const command: Command = {
  help: () => word('pair'),
  async run(args) {
    const { values } = readArgs('pair', options, args, 0);
    await withClient(values, async (client) => {
      // A code made in this process would end with it.
      if (!client.address) {
        throw new AppError('command/service-silent', { address: serviceAddress(values), raw: 'not running' });
      }
      if (values.revoke !== undefined) {
        await client.request('DELETE', `/api/pairing/devices/${encodeURIComponent(values.revoke)}`);
        return;
      }
      const { devices, network } = await answered<Pairing>(client.request('GET', '/api/pairing'));
      if (values.list) return print({ devices });
      if (!network) printError(word('nobodyComes'));
      const code = await answered<PairingCode>(client.request('POST', '/api/pairing/code'));
      print({ ...code, addresses: network?.addresses ?? [] });
    });
    return exitCodes.done;
  },
};

/** Recomputes the results of one burn without a service. */
import { methodSets } from '../../shared/contract/burn-record.ts';
import { burnRecordJsonSchema } from '../../shared/contract/burn-record-json-schema.ts';
import { type Command, exitCodes, oneOf, print, readArgs, UsageError, word } from '../base/command-options.ts';
import { analysesOf, readRecord } from './record-files.ts';

export const command: Command = {
  help: () => word('analyse', { methods: methodSets.join(', ') }),
  async run(args) {
    const { values, positionals } = readArgs(
      'analyse',
      { method: { type: 'string' }, schema: { type: 'boolean' } },
      args,
      1,
    );
    if (values.schema) {
      print(burnRecordJsonSchema());
      return exitCodes.done;
    }
    const [path] = positionals;
    if (path === undefined) throw new UsageError(this.help());
    const method = oneOf('--method', values.method, methodSets);
    const [analysis] = await analysesOf([readRecord(path)], method);
    print(analysis);
    return exitCodes.done;
  },
};

/** Recomputes the results of one burn without a service. */
import { analyse } from '../../shared/analysis/analyse.ts';
import { checkRecord } from '../../shared/analysis/check-record.ts';
import { burnRecordSchema, methodSets } from '../../shared/contract/burn-record.ts';
import { burnRecordJsonSchema } from '../../shared/contract/burn-record-json-schema.ts';
import { issueSentence } from '../../shared/language/errors/issue-sentences.ts';
import { type Command, exitCodes, oneOf, print, readArgs, UsageError, word } from '../base/command-options.ts';
import { terminalLanguage } from '../base/start-up.ts';
import { readChecked } from './record-files.ts';

export const command: Command = {
  help: () => word('analyse', { methods: methodSets.join(', ') }),
  run(args) {
    const { values, positionals } = readArgs(
      'analyse',
      { method: { type: 'string' }, schema: { type: 'boolean' } },
      args,
    );
    if (values.schema) {
      print(burnRecordJsonSchema());
      return exitCodes.done;
    }
    const [path, more] = positionals;
    if (path === undefined || more !== undefined) throw new UsageError(this.help());
    const method = oneOf('--method', values.method, methodSets);
    const record = readChecked(path, burnRecordSchema, 'a burn record');
    const problems = checkRecord(record);
    if (problems.length > 0) {
      const sentences = problems.map(({ path: at, message: { code, params } }) => {
        return `  ${at}: ${issueSentence(terminalLanguage, 'issue/record', { ...params, problem: code })}`;
      });
      throw new UsageError(`${path} is a burn record whose parts do not fit together:\n${sentences.join('\n')}`);
    }
    print(analyse(record, method ? { method } : {}));
    return exitCodes.done;
  },
};

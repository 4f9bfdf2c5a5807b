/** Predicts what a stove would do with another load. */
import { z } from 'zod';
import { predictFromRecords } from '../../shared/comparison/prediction/predict-from-records.ts';
import { loadSchema } from '../../shared/contract/prediction.ts';
import { languages } from '../../shared/language/language.ts';
import { type Command, exitCodes, oneOf, print, readArgs, UsageError, word } from '../base/command-options.ts';
import { analysesOf, readChecked, readRecords } from './record-files.ts';

export const command: Command = {
  help: () => word('predict', { languages: languages.join(', ') }),
  async run(args) {
    const { values, positionals } = readArgs(
      'predict',
      { load: { type: 'string' }, schema: { type: 'boolean' }, language: { type: 'string' } },
      args,
      Number.POSITIVE_INFINITY,
    );
    if (values.schema) {
      print(z.toJSONSchema(loadSchema));
      return exitCodes.done;
    }
    if (positionals.length === 0 || values.load === undefined) throw new UsageError(this.help());
    const language = oneOf('--language', values.language, languages) ?? 'en';
    const load = readChecked(values.load, loadSchema, 'command/not-a-load');
    const records = readRecords(positionals);
    const analyses = await analysesOf(records);
    const burns = records.map((record, index) => ({ record, analysis: analyses[index]! }));
    print(predictFromRecords(burns, load, language));
    return exitCodes.done;
  },
};

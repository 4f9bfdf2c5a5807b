/** `npm run --silent predict -- R1.json R2.json … --load LOAD.json`: what would this stove do with another load? */
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { predictFromRecords } from '../shared/comparison/prediction/predict-from-records.ts';
import { loadSchema } from '../shared/contract/prediction.ts';
import { languages } from '../shared/language/language.ts';
import { analysed, answer, readChecked, readRecords, UsageError } from './tools/burn-files.ts';

const USAGE = `usage: predict R1.json R2.json ... --load LOAD.json

  predicts time to target and dry wood for a load from burns (records) of one stove and revision, and prints JSON

  --load LOAD.json    the load asked for; {"waterKg": 30} is enough, what is left out is taken as in the burns
  --schema            prints the schema of LOAD.json instead
  --language LANGUAGE ${languages.join(', ')}
`;

answer(() => {
  const { values, positionals } = options();
  if (values.help) {
    process.stdout.write(USAGE);
    return undefined;
  }
  if (values.schema) return z.toJSONSchema(loadSchema);
  if (positionals.length === 0 || values.load === undefined) throw new UsageError(USAGE);
  const language = languages.find((candidate) => candidate === (values.language ?? 'en'));
  if (!language)
    throw new UsageError(`--language ${values.language} is not known. Choose one of: ${languages.join(', ')}.`);
  const load = readChecked(values.load, loadSchema, 'a load (see --schema)');
  return predictFromRecords(
    readRecords(positionals).map((record) => analysed(record)),
    load,
    language,
  );
});

function options() {
  try {
    return parseArgs({
      options: {
        load: { type: 'string' },
        schema: { type: 'boolean' },
        language: { type: 'string' },
        help: { type: 'boolean' },
      },
      allowPositionals: true,
    });
  } catch (cause) {
    throw new UsageError(`${(cause as Error).message}\n\n${USAGE}`);
  }
}

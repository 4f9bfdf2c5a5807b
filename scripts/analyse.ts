/**
 * `npm run --silent analyse -- RECORD.json [--method NAME]`: the results of one burn, recomputed without a server. Standard output
 * carries JSON and nothing else; what is wrong goes to standard error with exit code 2.
 */
import { parseArgs } from 'node:util';
import { analyse } from '../shared/analysis/analyse.ts';
import { checkRecord } from '../shared/analysis/check-record.ts';
import { burnRecordSchema, methodSets } from '../shared/contract/burn-record.ts';
import { burnRecordJsonSchema } from '../shared/contract/burn-record-json-schema.ts';
import { recordProblemsEn } from '../shared/language/record-problems.en.ts';
import { answer, readChecked, UsageError } from './tools/burn-files.ts';

const USAGE = `usage: analyse RECORD.json [--method NAME]

  computes every result of a burn record and prints them as JSON

  --method NAME  ${methodSets.join(', ')}; the record's own when left out
  --schema       prints the JSON Schema of a burn record instead
`;

answer(() => {
  const { values, positionals } = options();
  if (values.help) {
    process.stdout.write(USAGE);
    return undefined;
  }
  if (values.schema) return burnRecordJsonSchema();
  const [path, more] = positionals;
  if (path === undefined || more !== undefined) throw new UsageError(USAGE);
  const method = methodSets.find((name) => name === values.method);
  if (values.method !== undefined && !method) {
    throw new UsageError(`--method ${values.method} is not known. Choose one of: ${methodSets.join(', ')}.`);
  }
  const record = readChecked(path, burnRecordSchema, 'a burn record');
  const problems = checkRecord(record);
  if (problems.length > 0) {
    const sentences = problems.map(({ path: at, message }) => {
      const code = message.code as keyof typeof recordProblemsEn;
      return `  ${at}: ${recordProblemsEn[code](message.params)}`;
    });
    throw new UsageError(`${path} is a burn record whose parts do not fit together:\n${sentences.join('\n')}`);
  }
  return analyse(record, method ? { method } : {});
});

function options() {
  try {
    return parseArgs({
      options: { method: { type: 'string' }, schema: { type: 'boolean' }, help: { type: 'boolean' } },
      allowPositionals: true,
    });
  } catch (cause) {
    throw new UsageError(`${(cause as Error).message}\n\n${USAGE}`);
  }
}

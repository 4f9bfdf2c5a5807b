import type { BurnSummary } from '../../shared/contract/burns.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, oneOf, print, printError, readArgs, word } from '../base/command-options.ts';
import { type Client, clientOptions, requireBenchOf, withClient } from './client.ts';
import { findBurn, listBurns } from './find-burn.ts';
import { fileNameOf, writeOutput } from './output-file.ts';

/** Names of the formats on the command line, and the address and file extension of each. */
const formats = {
  package: ['package.zip', 'package.zip'],
  record: ['record', 'record.json'],
  xlsx: ['burn.xlsx', 'burn.xlsx'],
  csv: ['readings.csv', 'readings.csv'],
  parquet: ['readings.parquet', 'readings.parquet'],
  results: ['results.csv', 'results.csv'],
  marks: ['marks.csv', 'marks.csv'],
  weighings: ['weighings.csv', 'weighings.csv'],
} as const;
type Format = keyof typeof formats;

const options = {
  ...clientOptions,
  format: { type: 'string' },
  output: { type: 'string' },
  all: { type: 'boolean' },
  list: { type: 'boolean' },
  force: { type: 'boolean' },
} as const;

export const command: Command = {
  help: () => word('export', { formats: Object.keys(formats).join(', ') }),
  async run(args) {
    const { values, positionals } = readArgs('export', options, args, Number.POSITIVE_INFINITY);
    const format = oneOf('--format', values.format, Object.keys(formats) as Format[]) ?? 'package';
    if (!values.list && !values.all && positionals.length === 0) {
      throw new AppError('command/argument-missing', { command: 'export', what: 'BURN' });
    }
    requireBenchOf(values);
    return withClient(values, async (client) => {
      const all = await listBurns(client);
      if (values.list) {
        print({ burns: all.map(({ curve: _curve, ...burn }) => burn) });
        return exitCodes.done;
      }
      if (values.all && all.length === 0) throw new AppError('command/no-burns');
      const burns = values.all ? all : positionals.map((text) => findBurn(all, text));
      const one = burns.length === 1 ? burns[0] : undefined;
      if (!one && format !== 'package') {
        throw new AppError('command/argument-wrong', { option: '--format', value: format, options: 'package' });
      }
      const content = await contentOf(client, burns, format);
      const name = fileNameOf(one ? one.title : 'burns', formats[format][1]);
      const output = { file: values.output ?? name, force: values.force ?? false };
      const { leftOut } = content;
      const asked = burns.map(({ id, title }) => ({ id, title }));
      await writeOutput(content, output, { burns: asked, ...(leftOut && { leftOut }) });
      for (const { title, reason } of leftOut ?? []) printError(word('leftOut', { title, reason }));
      return leftOut ? exitCodes.found : exitCodes.done;
    });
  },
};

function contentOf(client: Client, burns: readonly BurnSummary[], format: Format) {
  const [burn] = burns;
  if (burns.length === 1) return client.request('GET', `/api/burns/${burn!.id}/${formats[format][0]}`);
  return client.request('GET', `/api/package.zip?burns=${burns.map(({ id }) => id).join(',')}`);
}

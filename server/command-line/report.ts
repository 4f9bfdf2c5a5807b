import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ImportPreview } from '../../shared/contract/imports.ts';
import { languages } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, oneOf, readArgs, word } from '../base/command-options.ts';
import { terminalLanguage } from '../base/start-up.ts';
import { papers } from '../reports/page-size.ts';
import type { ReportFormat } from '../reports/report-formats.ts';
import { answered, type Client, type ClientOptions, clientOptions, requireBenchOf, withClient } from './client.ts';
import { findBurn, listBurns } from './find-burn.ts';
import { readInput } from './input-file.ts';
import { fileNameOf, writeOutput } from './output-file.ts';

const formats: Record<string, ReportFormat> = { pdf: 'report.pdf', html: 'report.html', svg: 'curves.svg' };
const paperNames = Object.keys(papers) as (keyof typeof papers)[];

const options = {
  ...clientOptions,
  format: { type: 'string' },
  language: { type: 'string' },
  paper: { type: 'string' },
  output: { type: 'string' },
  force: { type: 'boolean' },
} as const;

export const command: Command = {
  help: () =>
    word('report', {
      formats: Object.keys(formats).join(', '),
      languages: languages.join(', '),
      papers: paperNames.join(', '),
    }),
  async run(args) {
    const { values, positionals } = readArgs('report', options, args, 1);
    const format = formats[oneOf('--format', values.format, Object.keys(formats)) ?? 'pdf']!;
    const language = oneOf('--language', values.language, languages) ?? terminalLanguage;
    const paper = oneOf('--paper', values.paper, paperNames) ?? 'a4';
    const [what] = positionals;
    if (what === undefined) {
      throw new AppError('command/argument-missing', { command: 'report', what: 'BURN' });
    }
    const write = async (client: Client, text: string) => {
      const burn = findBurn(await listBurns(client), text);
      const content = await client.request(
        'GET',
        `/api/burns/${burn.id}/${format}?language=${language}&paper=${paper}`,
      );
      const output = { file: values.output ?? fileNameOf(burn.title, format), force: values.force ?? false };
      await writeOutput(content, output, { burns: [{ id: burn.id, title: burn.title }] });
      return exitCodes.done;
    };
    if (!isFile(what)) {
      requireBenchOf(values);
      return withClient(values, (client) => write(client, what));
    }
    return onLoan(what, (choice) => withClient(choice, (client) => write(client, 'latest')));
  },
};

/** Whether the argument is a file: standard input, the name of a record or a package, or any existing path. */
function isFile(what: string): boolean {
  return what === '-' || /\.(json|zip)$/i.test(what) || statSync(what, { throwIfNoEntry: false })?.isFile() === true;
}

/** A record needs no bench of its own: it is saved in a temporary one for the time of the report. */
async function onLoan(file: string, work: (choice: ClientOptions) => Promise<number>): Promise<number> {
  const bytes = readInput(file);
  const data = mkdtempSync(join(tmpdir(), 'stovebench-report-'));
  try {
    await withClient({ data }, async (client) => {
      const preview = await answered<ImportPreview>(
        client.request('POST', `/api/imports?name=${encodeURIComponent(file === '-' ? 'file' : file)}`, { bytes }),
      );
      await answered(client.request('POST', `/api/imports/${preview.id}/keep`, { json: {} }));
    });
    return await work({ data });
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

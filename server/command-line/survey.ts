/**
 * Runs the survey of a published dataset, for questions that no single bench can answer: tables, and a page with plots.
 */
import { Readable } from 'node:stream';
import packageFile from '../../package.json' with { type: 'json' };
import { resultIds } from '../../shared/contract/results.ts';
import { languages } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, oneOf, readArgs, word } from '../base/command-options.ts';
import { terminalLanguage } from '../base/start-up.ts';
import { reportToHtml } from '../reports/report-html.ts';
import { reportText } from '../survey/report-text.ts';
import { survey } from '../survey/survey.ts';
import { surveyReport } from '../survey/survey-report.ts';
import { writeOutput } from './output-file.ts';

const options = {
  result: { type: 'string' },
  start: { type: 'string' },
  simulated: { type: 'boolean' },
  language: { type: 'string' },
  output: { type: 'string' },
  force: { type: 'boolean' },
} as const;

export const command: Command = {
  help: () => word('survey', { languages: languages.join(', ') }),
  async run(args) {
    const { values, positionals } = readArgs('survey', options, args, 1);
    const [folder] = positionals;
    if (folder === undefined) throw new AppError('command/argument-missing', { command: 'survey', what: 'FOLDER' });
    const result = oneOf('--result', values.result, resultIds) ?? 'dryWoodPerBatch';
    const start = oneOf('--start', values.start, ['cold', 'hot'] as const) ?? 'cold';
    const language = oneOf('--language', values.language, languages) ?? terminalLanguage;
    const found = await survey(folder, { result, start, simulated: values.simulated ?? false });
    const report = surveyReport(found, language, packageFile.version);
    process.stderr.write(reportText(report));
    const output = { file: values.output ?? 'survey.html', force: values.force ?? false };
    await writeOutput(Readable.from([reportToHtml(report)]), output, found);
    return exitCodes.done;
  },
};

/** Is B better than A, by how much, how sure? */
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import { comparedResults } from '../../shared/comparison/result-scales.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import { blockKinds } from '../../shared/contract/comparison.ts';
import { languages } from '../../shared/language/language.ts';
import { AppError } from '../app-error.ts';
import { type Command, exitCodes, oneOf, print, readArgs, UsageError, word } from './command.ts';
import { analysed, readRecords } from './record-files.ts';

const options = {
  primary: { type: 'string' },
  blocks: { type: 'string' },
  worth: { type: 'string' },
  method: { type: 'string' },
  'as-measured': { type: 'boolean' },
  language: { type: 'string' },
} as const;

export const command: Command = {
  help: () =>
    word('compare', {
      results: comparedResults.slice(0, 3).join(', '),
      blocks: blockKinds.join(', '),
      methods: methodSets.join(', '),
      languages: languages.join(', '),
    }),
  run(args) {
    const [before, after] = splitAt(args, '--against');
    const [first, second] = [readArgs('compare', options, before), readArgs('compare', options, after)];
    const values = { ...first.values, ...second.values };
    const [pathsA, pathsB] = [first.positionals, second.positionals];
    if (pathsA.length === 0 || pathsB.length === 0) throw new UsageError(this.help());
    const method = oneOf('--method', values.method, methodSets);
    const primary = oneOf('--primary', values.primary, comparedResults);
    const blocks = oneOf('--blocks', values.blocks, blockKinds);
    const language = oneOf('--language', values.language, languages);
    const burns = readRecords([...pathsA, ...pathsB]).map((record): ComparedBurn => {
      const { analysis } = analysed(record, method);
      return { burn: record, analysis };
    });
    const [a, b] = [burns.slice(0, pathsA.length), burns.slice(pathsA.length)];
    print(
      compareRevisions(a, b, {
        adjust: !values['as-measured'],
        ...(primary ? { primary } : {}),
        ...(blocks ? { blocks } : {}),
        ...(language ? { language } : {}),
        ...(values.worth === undefined ? {} : { worthKnowing: fraction(values.worth) }),
      }),
    );
    return exitCodes.done;
  },
};

function splitAt(args: readonly string[], word: string): [string[], string[]] {
  const place = args.indexOf(word);
  return place < 0 ? [[...args], []] : [args.slice(0, place), args.slice(place + 1)];
}

function fraction(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value < 10)) {
    throw new AppError('command/argument-wrong', { option: '--worth', value: text, options: '0.05, 0.1, 0.2, …' });
  }
  return value;
}

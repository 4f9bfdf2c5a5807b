/** `npm run --silent compare -- A1.json A2.json … --against B1.json B2.json …`: is B better than A, by how much, how sure? */
import { parseArgs } from 'node:util';
import { compareRevisions } from '../shared/comparison/compare-revisions.ts';
import type { ComparedBurn } from '../shared/comparison/compared-burn.ts';
import { comparedResults } from '../shared/comparison/result-scales.ts';
import { methodSets } from '../shared/contract/burn-record.ts';
import { blockKinds } from '../shared/contract/comparison.ts';
import { languages } from '../shared/language/language.ts';
import { analysed, answer, readRecords, UsageError } from './tools/burn-files.ts';

const USAGE = `usage: compare A1.json A2.json ... --against B1.json B2.json ...

  compares the burns of one revision (A) with those of another (B), burn records all, and prints the answer as JSON

  --primary RESULT    result that carries the verdict (${comparedResults.slice(0, 3).join(', ')}, ...); chosen before the burns
  --blocks KIND       ${blockKinds.join(', ')}: compare within days, or within wood lots
  --worth FRACTION    relative difference to plan further burns for (0.1)
  --method NAME       ${methodSets.join(', ')}
  --as-measured       do not bring different loads, start temperatures and air to common conditions
  --language LANGUAGE ${languages.join(', ')}
`;

answer(() => {
  const [before, after] = splitAt(process.argv.slice(2), '--against');
  const { values, positionals, rest } = options(before, after);
  if (values.help) {
    process.stdout.write(USAGE);
    return undefined;
  }
  if (positionals.length === 0 || rest.length === 0) throw new UsageError(USAGE);
  const method = oneOf('--method', values.method, methodSets);
  const primary = oneOf('--primary', values.primary, comparedResults);
  const blocks = oneOf('--blocks', values.blocks, blockKinds);
  const language = oneOf('--language', values.language, languages);
  const burns = readRecords([...positionals, ...rest]).map((record): ComparedBurn => {
    const { analysis } = analysed(record, method);
    return { burn: record, analysis };
  });
  const [a, b] = [burns.slice(0, positionals.length), burns.slice(positionals.length)];
  return compareRevisions(a, b, {
    adjust: !values['as-measured'],
    ...(primary ? { primary } : {}),
    ...(blocks ? { blocks } : {}),
    ...(language ? { language } : {}),
    ...(values.worth === undefined ? {} : { worthKnowing: fraction(values.worth) }),
  });
});

function options(before: readonly string[], after: readonly string[]) {
  const config = {
    options: {
      primary: { type: 'string' },
      blocks: { type: 'string' },
      worth: { type: 'string' },
      method: { type: 'string' },
      'as-measured': { type: 'boolean' },
      language: { type: 'string' },
      help: { type: 'boolean' },
    },
    allowPositionals: true,
  } as const;
  try {
    const first = parseArgs({ ...config, args: [...before] });
    const second = parseArgs({ ...config, args: [...after] });
    return {
      values: { ...first.values, ...second.values },
      positionals: first.positionals,
      rest: second.positionals,
    };
  } catch (cause) {
    throw new UsageError(`${(cause as Error).message}\n\n${USAGE}`);
  }
}

function splitAt(args: readonly string[], word: string): [string[], string[]] {
  const place = args.indexOf(word);
  return place < 0 ? [[...args], []] : [args.slice(0, place), args.slice(place + 1)];
}

function oneOf<T extends string>(name: string, value: string | undefined, known: readonly T[]): T | undefined {
  if (value === undefined) return undefined;
  const found = known.find((candidate) => candidate === value);
  if (found === undefined) throw new UsageError(`${name} ${value} is not known. Choose one of: ${known.join(', ')}.`);
  return found;
}

function fraction(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value < 10)) throw new UsageError(`--worth ${text} is not a fraction above 0, for example 0.1.`);
  return value;
}

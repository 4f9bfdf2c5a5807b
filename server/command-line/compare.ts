/**
 * Compares two revisions: whether B is better than A, by how much, how certain, and the place of both among all
 * revisions of the stove.
 */
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import { nextTestOf } from '../../shared/comparison/next-test.ts';
import { comparedResults } from '../../shared/comparison/result-scales.ts';
import { methodSets, type PlannedDays, plannedDaysSchema } from '../../shared/contract/burn-record.ts';
import { blockKinds } from '../../shared/contract/comparison.ts';
import { type Idea, ideaSchema } from '../../shared/contract/next-test.ts';
import { languages } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { type Command, exitCodes, oneOf, print, readArgs, UsageError, word } from '../base/command-options.ts';
import { issuesOf } from '../base/validation-issues.ts';
import { analysesOf, readRecords } from './record-files.ts';

const options = {
  primary: { type: 'string' },
  blocks: { type: 'string' },
  worth: { type: 'string' },
  days: { type: 'string' },
  idea: { type: 'string' },
  part: { type: 'string', multiple: true },
  lot: { type: 'string', multiple: true },
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
  async run(args) {
    const parts = splitAt(args, '--against').map((part) =>
      readArgs('compare', options, part, Number.POSITIVE_INFINITY),
    );
    const values = Object.assign({}, ...parts.map((part) => part.values)) as (typeof parts)[number]['values'];
    const groups = parts.map(({ positionals }) => positionals);
    if (groups.length < 2 || groups.some(({ length }) => length === 0)) throw new UsageError(this.help());
    const method = oneOf('--method', values.method, methodSets);
    const primary = oneOf('--primary', values.primary, comparedResults);
    const blocks = oneOf('--blocks', values.blocks, blockKinds);
    const language = oneOf('--language', values.language, languages);
    const records = readRecords(groups.flat());
    const analyses = await analysesOf(records, method);
    const burns = records.map((burn, index): ComparedBurn => ({ burn, analysis: analyses[index]! }));
    // The last revision is compared with the one before it; those before them form the rest of the ladder.
    const revisions = groups.map(({ length }, index) => {
      const from = groups.slice(0, index).flat().length;
      return burns.slice(from, from + length);
    });
    const [a, b] = revisions.slice(-2) as [ComparedBurn[], ComparedBurn[]];
    const others = revisions.slice(0, -2);
    const plannedDays = daysOf(values.days);
    const worthKnowing = values.worth === undefined ? undefined : fraction(values.worth);
    const idea = ideaOf(values, worthKnowing);
    print({
      ...compareRevisions(a, b, {
        others,
        adjust: !values['as-measured'],
        ...(primary ? { primary } : {}),
        ...(blocks ? { blocks } : {}),
        ...(language ? { language } : {}),
        ...(plannedDays === undefined ? {} : { plannedDays }),
        ...(worthKnowing === undefined ? {} : { worthKnowing }),
      }),
      ...(idea ? { nextTest: nextTestOf(idea, b, [...others, a], language) } : {}),
    });
    return exitCodes.done;
  },
};

function splitAt(args: readonly string[], word: string): string[][] {
  const parts: string[][] = [[]];
  for (const arg of args) {
    if (arg === word) parts.push([]);
    else parts.at(-1)!.push(arg);
  }
  return parts;
}

/** @throws AppError command/argument-wrong */
function daysOf(text: string | undefined): PlannedDays['days'] | undefined {
  if (text === undefined) return undefined;
  const checked = plannedDaysSchema.shape.days.safeParse(text === 'untilClear' ? text : Number(text));
  if (checked.success) return checked.data;
  throw new AppError('command/argument-wrong', { option: '--days', value: text, options: '2, 3, … 60, untilClear' });
}

/** @throws AppError command/argument-wrong, command/not-an-idea */
function ideaOf(
  { idea, part = [], lot = [] }: { idea?: string; part?: string[]; lot?: string[] },
  worthKnowing: number | undefined,
): Idea | undefined {
  if (idea === undefined) return undefined;
  const lots = lot.map((text) => {
    const [, name, burns] = /^(.+):(\d+)$/.exec(text) ?? [];
    if (name === undefined) {
      throw new AppError('command/argument-wrong', { option: '--lot', value: text, options: 'NAME:BURNS' });
    }
    return { name, burns: Number(burns) };
  });
  const asked = { change: idea, parts: part, lots, ...(worthKnowing !== undefined && { worthKnowing }) };
  const checked = ideaSchema.safeParse(asked, { reportInput: true });
  if (!checked.success) throw new AppError('command/not-an-idea', {}, { issues: issuesOf(checked.error) });
  return checked.data;
}

function fraction(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value < 10)) {
    throw new AppError('command/argument-wrong', { option: '--worth', value: text, options: '0.05, 0.1, 0.2, …' });
  }
  return value;
}

/** Schemas of query strings, which check and parse their text. */
import { z } from 'zod';
import { methodSets, primaryResults } from './burn-record.ts';
import { by } from './by.ts';
import { blockKinds } from './comparison.ts';
import { ideaSchema } from './next-test.ts';
import { resultIds } from './results.ts';

const id = z.uuid();

/** A whole number. Coercion would parse an empty text as 0. */
const wholeNumber = (least: number, most: number) =>
  z
    .string()
    .regex(/^-?\d{1,15}$/)
    .transform(Number)
    .pipe(z.int().min(least).max(most));

const anyNumber = z
  .string()
  .regex(/^-?\d{1,12}(\.\d{1,9})?$/)
  .transform(Number);

/** Identifiers of burns, separated by commas. */
export const burnsText = (most: number) =>
  z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(id).min(1).max(most));

export const seriesQuery = z.strictObject({
  points: wholeNumber(2, 20_000).optional().describe('about how many a curve; 1000 when left out'),
  from: anyNumber.optional().describe('elapsed s'),
  to: anyNumber.optional().describe('elapsed s'),
});

/** What a list of burns contains on request, in addition to the facts of each. */
export const burnParts = ['curve', 'figures'] as const;
export type BurnPart = (typeof burnParts)[number];

/** Without any of these, all burns are listed. */
export const burnsQuery = z.strictObject({
  limit: wholeNumber(1, 1000).optional().describe('at most so many burns; all when left out'),
  after: id.optional().describe('the burn that the page before ended with, as its `next` said'),
  stove: id.optional().describe('only burns of this stove'),
  with: z
    .string()
    .transform((text) => text.split(','))
    .pipe(z.array(z.enum(burnParts)))
    .optional()
    .describe('what to add to each burn: curve, figures, or both with a comma between'),
});

export const methodQuery = z.strictObject({ method: z.enum(methodSets).optional() });

/** The query for withdrawing an entry of a burn. */
export const takeBackQuery = z.strictObject({
  expectedVersion: wholeNumber(1, 1e9),
  by,
});

const plannedDaysText = z.union([z.literal('untilClear'), z.coerce.number().pipe(z.int().min(2).max(60))]);

export const comparisonQuery = z.strictObject({
  a: burnsText(200).describe('burns of the one revision'),
  b: burnsText(200).describe('burns of the other revision, which is said to be better or worse'),
  primary: z.enum(primaryResults).optional().describe('that of the first burn when left out'),
  blocks: z.enum(blockKinds).optional(),
  adjust: z
    .enum(['yes', 'no'])
    .default('yes')
    .describe('bring known differences of load, start and air to common conditions'),
  ladder: z.enum(['yes', 'no']).default('no').describe('judge the two as a step among all revisions of their stove'),
  plannedDays: plannedDaysText
    .optional()
    .describe('of each revision, said beforehand; goes before what the revisions say'),
});

export const levelQuery = z.strictObject({
  burns: burnsText(200),
  result: z.enum(resultIds).default('dryWoodPerBatch'),
});

/** An idea: parts separated by semicolons, lots as name:burns. */
export const nextTestQuery = z.strictObject({
  revision: id.describe('that the idea starts from'),
  change: ideaSchema.shape.change,
  parts: z
    .string()
    .default('')
    .transform(listed)
    .pipe(ideaSchema.shape.parts.unwrap())
    .describe('everything that would change, semicolons between'),
  lots: z
    .string()
    .default('')
    .transform((text) => listed(text).map(lotOf))
    .pipe(ideaSchema.shape.lots.unwrap())
    .describe('wood lots as NAME:BURNS, semicolons between'),
  worthKnowing: z.coerce.number().pipe(ideaSchema.shape.worthKnowing.unwrap()).optional(),
  days: z.coerce.number().pipe(z.int().min(2).max(30)).optional(),
});

/** The query for importing a file. */
export const importQuery = z.strictObject({
  name: z.string().trim().min(1).max(255).default('file'),
  as: z.enum(['columns', 'notes']).optional(),
});

function listed(text: string): string[] {
  return text
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

/** A lot without a number is assumed to last for every day. */
function lotOf(text: string): { name: string; burns: number } {
  const [, name, burns] = /^(.*?)(?::\s*(\d+))?$/.exec(text) ?? [];
  return { name: name ?? text, burns: burns === undefined ? 200 : Number(burns) };
}

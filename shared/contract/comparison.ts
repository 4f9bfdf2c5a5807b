/** What comparing revisions answers: how much they differ, how sure, and what else was different. */
import { z } from 'zod';
import { messageSchema, resultIds } from './results.ts';

const resultId = z.enum(resultIds);
const interval = z.tuple([z.number(), z.number()]);
const side = z.enum(['a', 'b']);

export const blockKinds = ['none', 'day', 'lot'] as const;

export const verdicts = ['better', 'worse', 'cannotTell'] as const;

/** One burn as a point of one result. `adjusted` is what it would have been at the common conditions. */
export const comparedPointSchema = z.strictObject({
  burnId: z.string(),
  side,
  value: z.number(),
  adjusted: z.number().optional(),
});

const figures = {
  a: z.number().describe('level of the first revision: geometric mean of ratio results, mean of fractions'),
  b: z.number().describe('level of the second revision'),
  difference: z.number().describe('b − a, in the unit of the result'),
  interval95: interval.describe('of the difference'),
  relative: z.number().describe('(b − a)/a'),
  relativeInterval95: interval,
};

export const varianceShareSchema = z.strictObject({
  source: z.string().describe('"scatterA", "scatterB", or the input whose shared error does not cancel'),
  share: z.number().describe('of the variance of the difference'),
});

export const differenceSchema = z.strictObject({
  id: resultId,
  unit: z.string(),
  ...figures,
  verdict: z.enum(verdicts),
  sentence: z.string(),
  counts: z.strictObject({ a: z.int(), b: z.int() }).describe('burns that carry this result'),
  scale: z.enum(['ratio', 'points', 'ranks']).describe('how it was compared'),
  betterWhen: z.enum(['lower', 'higher', 'neither']),
  standardError: z.number().optional().describe('on the comparing scale: of the log ratio, or of the difference'),
  degreesOfFreedom: z.number().optional().describe('left out when infinite'),
  shares: z.array(varianceShareSchema).describe('largest first'),
  points: z.array(comparedPointSchema),
  raw: z.strictObject(figures).optional().describe('without adjustment, where one was made'),
  remarks: z.array(messageSchema),
});
export type Difference = z.infer<typeof differenceSchema>;

export const missingDifferenceSchema = z.strictObject({
  id: resultId,
  unit: z.string().optional().describe('of the points, where there are any'),
  missing: messageSchema,
  sentence: z.string(),
  points: z.array(comparedPointSchema),
});
export type MissingDifference = z.infer<typeof missingDifferenceSchema>;

export const planSchema = z.strictObject({
  worthKnowing: z.number().describe('relative difference the plan is made for'),
  furtherBurns: z
    .strictObject({ low: z.int().optional(), likely: z.int().optional(), high: z.int().optional() })
    .optional()
    .describe('of each revision, for 80 % power; an end left out where no number of burns would do'),
  improveFirst: z.string().optional().describe('"scatter", or the input that limits the comparison most'),
  sentences: z.array(z.string()),
});
export type Plan = z.infer<typeof planSchema>;

const setAsideSchema = z.strictObject({
  burnId: z.string(),
  side,
  reason: messageSchema,
  sentence: z.string(),
});

export const comparisonSchema = z.strictObject({
  primary: resultId,
  verdict: z.enum(verdicts),
  sentence: z.string().describe('the verdict on the primary result'),
  blocks: z.enum(blockKinds),
  burns: z.strictObject({ a: z.array(z.string()), b: z.array(z.string()) }).describe('ids of the burns compared'),
  differences: z.array(z.union([differenceSchema, missingDifferenceSchema])).describe('the primary result first'),
  manyResults: z.string().optional().describe('a warning to read beside the results that are "also seen"'),
  setAside: z.array(setAsideSchema),
  alsoDiffered: z.array(z.strictObject({ message: messageSchema, sentence: z.string() })),
  plan: planSchema.optional(),
});
export type Comparison = z.infer<typeof comparisonSchema>;
export type Verdict = (typeof verdicts)[number];
export type BlockKind = (typeof blockKinds)[number];
export type ComparedPoint = z.infer<typeof comparedPointSchema>;

/** Level of one result over the burns of a stove, each burn against the mean of its own revision. */
export const driftSchema = z.strictObject({
  id: resultId,
  scale: z.enum(['ratio', 'points']),
  points: z.array(
    z.strictObject({
      burnId: z.string(),
      value: z.number(),
      apart: z.number().describe('from the mean of its revision: relative for ratio results, else in the unit'),
    }),
  ),
  low: z.number(),
  high: z.number().describe('limits of `apart`: three deviations judged from burn to burn'),
  outside: z.array(z.string()).describe('ids of burns beyond a limit'),
  runs: z.array(z.string()).describe('ids of burns that end eight or more on one side'),
  leftOut: z.array(z.string()).describe('ids of burns alone in their revision, or without a date or this result'),
  sentence: z.string(),
});
export type Drift = z.infer<typeof driftSchema>;

const price = z.number().nonnegative();
/** What the person pays; whatever is left out is not counted. */
export const pricesSchema = z.strictObject({
  currency: z.string().trim().min(1).max(10).optional(),
  woodPerKg: price.optional().describe('as bought, its moisture included'),
  batchesPerSeason: z.number().positive().optional(),
  bottledGas: z
    .strictObject({
      perKg: price,
      gas: z.enum(['propane', 'butane', 'bottledMixture']).default('bottledMixture'),
      efficiency: z.number().min(0.05).max(1).default(0.5).describe('heat into the pot over heat of the gas'),
    })
    .optional(),
  electricity: z
    .strictObject({
      perKWh: price,
      efficiency: z.number().min(0.05).max(1).default(0.85).describe('heat into the pot over energy metered'),
    })
    .optional(),
});
export type Prices = z.infer<typeof pricesSchema>;

const amount = z.strictObject({ value: z.number(), interval95: interval.optional() });
export const costSchema = z.strictObject({
  burns: z.int(),
  woodKgPerBatch: amount.describe('as received'),
  woodKgPerKgHeated: z.number().optional(),
  usefulMJPerBatch: z
    .number()
    .optional()
    .describe('heat of load and vapour, taken as what gas or electricity would have to give'),
  wood: z
    .strictObject({ perBatch: amount, perKgHeated: z.number().optional(), perSeason: amount.optional() })
    .optional(),
  bottledGas: z
    .strictObject({ kgPerBatch: z.number(), perBatch: z.number(), perSeason: z.number().optional() })
    .optional(),
  electricity: z
    .strictObject({ kWhPerBatch: z.number(), perBatch: z.number(), perSeason: z.number().optional() })
    .optional(),
});
export type Cost = z.infer<typeof costSchema>;

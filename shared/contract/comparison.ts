/** The schema of a comparison of revisions: how much they differ, how certain that is, and what else was different. */
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

const change = {
  difference: z.number().describe('b − a, in the unit of the result'),
  relative: z.number().describe('(b − a)/a'),
};
const figures = {
  a: z.number().describe('level of the first revision: geometric mean of ratio results, mean of fractions'),
  b: z.number().describe('level of the second revision'),
  ...change,
  interval95: interval.describe('of the difference, as if this were the only look at these two revisions'),
  relativeInterval95: interval,
};

/** A sentence with the code and parameters it was made from. */
const saying = { message: messageSchema, sentence: z.string() };
const sayingSchema = z.strictObject(saying);

/**
 * before: fewer days than planned; planned: the planned number; beyond: more; untilClear: no number, by choice;
 * notSaid, saidLate: no number entered before a difference could be seen.
 */
const lookKinds = ['before', 'planned', 'beyond', 'untilClear', 'notSaid', 'saidLate'] as const;

const sideDays = z.strictObject({ a: z.int(), b: z.int() });
const lookSchema = z.strictObject({
  kind: z.enum(lookKinds),
  days: sideDays.describe('days that carry this result; burns of one day are one'),
  plannedDays: z.int().optional(),
  setAtUtcMs: z.int().optional().describe('when the number was said'),
});
export type Look = z.infer<typeof lookSchema>;
export type LookKind = Look['kind'];

/** The interval that decides: a difference is established when it excludes zero. */
const decidingSchema = z.strictObject({
  confidence: z.number().describe('of this comparison alone, after sharing out among the steps of a ladder'),
  everyLook: z.boolean().describe('whether it holds at all looks together'),
  interval: interval
    .optional()
    .describe('of the difference; left out while none holds at every look, or tells anything'),
  relativeInterval: interval.optional(),
});
export type Deciding = z.infer<typeof decidingSchema>;

export const varianceShareSchema = z.strictObject({
  source: z.string().describe('"scatterA", "scatterB", or the input whose shared error does not cancel'),
  share: z.number().describe('of the variance of the difference'),
});

export const differenceSchema = z.strictObject({
  id: resultId,
  unit: z.string(),
  ...figures,
  deciding: decidingSchema,
  look: lookSchema,
  verdict: z.enum(verdicts).describe('of the primary result; any other one never is better or worse'),
  standsOut: z
    .strictObject({ among: z.int(), confidence: z.number(), holds: z.boolean() })
    .optional()
    .describe('of another result: whether it differs though that many were looked at'),
  ...saying,
  counts: sideDays.describe('burns that carry this result'),
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
  levels: z
    .strictObject({ a: z.number(), b: z.number(), ...change })
    .optional()
    .describe('figures that no interval belongs to, where there are too few days'),
  ...saying,
  points: z.array(comparedPointSchema),
});
export type MissingDifference = z.infer<typeof missingDifferenceSchema>;

export const planSchema = z.strictObject({
  worthKnowing: z.number().describe('relative difference the plan is made for'),
  furtherDays: z
    .strictObject({ low: z.int().optional(), likely: z.int().optional(), high: z.int().optional() })
    .optional()
    .describe(
      'of each revision, for 80 % power as those days are judged; an end left out where no number of days would do',
    ),
  improveFirst: z.string().optional().describe('"scatter", or the input that limits the comparison most'),
  sentences: z.array(z.string()),
  messages: z.array(messageSchema).describe('what the sentences were made from'),
});
export type Plan = z.infer<typeof planSchema>;

/**
 * An improvement of the measurement that costs about an hour, with the interval that the same burns would then give;
 * the first entry is the present interval.
 */
export const narrowings = ['asItIs', 'anotherDay', 'oneLot', 'charWeighed', 'probesCalibrated'] as const;
const narrowingSchema = z.strictObject({
  kind: z.enum(narrowings),
  interval,
  relativeInterval: interval,
  share: z.number().describe('width over that of the present interval'),
  ...saying,
});
export type Narrowing = z.infer<typeof narrowingSchema>;

/* ---- the ladder: all revisions of a stove ---- */

const rungSchema = z.strictObject({
  revisionId: z.string().optional().describe('left out where the burns are not of one revision of their own'),
  label: z.string().describe('of the revision, else a letter'),
  burns: z.int(),
  days: z.int(),
  level: z.number().optional().describe('in the unit of the primary result; left out where no burn has it'),
});

const changedSchema = z.strictObject({
  change: z.string().optional().describe('as the person wrote it'),
  dimensions: z.array(
    z.strictObject({
      name: z.string(),
      unit: z.enum(['m', 'm2']),
      from: z.number().optional(),
      to: z.number().optional(),
    }),
  ),
  others: z.array(sayingSchema).describe('what else was different between the burns'),
  together: z.int().describe('number of things that changed at once, as far as they were written down'),
});

const stepSchema = z.strictObject({
  from: z.int().describe('place of the rung in `rungs`'),
  to: z.int(),
  look: lookSchema,
  difference: z.number().optional(),
  relative: z.number().optional(),
  deciding: decidingSchema.optional().describe('left out where there are too few days'),
  verdict: z.enum(verdicts),
  changed: changedSchema,
  remarks: z.array(sayingSchema),
  ...saying,
});
export type LadderStep = z.infer<typeof stepSchema>;

const effectSchema = z.strictObject({
  name: z.string().describe('of the dimension'),
  unit: z.enum(['m', 'm2']),
  per: z.number().describe('change of the dimension that the effect is given for'),
  effect: z.number().describe('of that change on the primary result: relative for ratio results, else in the unit'),
  interval,
  confidence: z.number(),
  ...saying,
});

const ladderSchema = z.strictObject({
  unit: z.string(),
  scale: z.enum(['ratio', 'points', 'ranks']),
  rungs: z.array(rungSchema).describe('in the order in which they were first burnt'),
  steps: z.array(stepSchema).describe('each revision against the one it was made from, or the one before it'),
  missing: sayingSchema.optional().describe('why no step is judged'),
  scatter: z
    .strictObject({ standardDeviation: z.number(), degreesOfFreedom: z.int() })
    .optional()
    .describe('from day to day within revisions, on the comparing scale'),
  best: z
    .strictObject({ seen: z.int(), mayBe: z.array(z.int()), ...saying })
    .optional()
    .describe('places of the rungs that may be the best'),
  effects: z.array(effectSchema),
  noEffects: sayingSchema.optional().describe('why no effect of a dimension is stated'),
  setAside: z
    .array(z.strictObject({ burnId: z.string(), ...saying }))
    .describe('of the revisions beside the two compared'),
});
export type Ladder = z.infer<typeof ladderSchema>;

const setAsideSchema = z.strictObject({
  burnId: z.string(),
  side,
  reason: messageSchema,
  sentence: z.string(),
});

const choiceMoments = ['before', 'after', 'notRecorded'] as const;

export const comparisonSchema = z.strictObject({
  ruleVersion: z.string().describe('of the rule by which comparisons are judged'),
  primary: resultId,
  chosen: z
    .strictObject({ when: z.enum(choiceMoments), atUtcMs: z.int().optional(), ...saying })
    .describe('when the primary result was chosen: before the burns, or after the first of them'),
  verdict: z.enum(verdicts),
  sentence: z.string().describe('the verdict on the primary result, and whether that was chosen late'),
  stopping: sayingSchema.optional().describe('which look this is, and what stopping now would mean'),
  ruleChanged: z
    .strictObject({ former: z.enum(verdicts), ...saying })
    .optional()
    .describe('where the rule of version 1 would have said otherwise'),
  blocks: z.enum(blockKinds),
  burns: z.strictObject({ a: z.array(z.string()), b: z.array(z.string()) }).describe('ids of the burns compared'),
  differences: z.array(z.union([differenceSchema, missingDifferenceSchema])).describe('the primary result first'),
  otherResults: sayingSchema.optional().describe('to read beside the results other than the primary one'),
  setAside: z.array(setAsideSchema),
  alsoDiffered: z.array(sayingSchema),
  plan: planSchema.optional(),
  narrowing: z.array(narrowingSchema).describe('what would narrow the answer for an hour of work, most first'),
  ladder: ladderSchema.optional(),
});
export type Comparison = z.infer<typeof comparisonSchema>;
export type Translator = z.infer<typeof sayingSchema>;
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
/** Prices that the person pays; what is left out is not counted. */
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

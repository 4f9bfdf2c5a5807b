/** Schemas of what is computed of a burn while it runs. */
import { z } from 'zod';

const id = z.uuid();

export const estimateSchema = z.strictObject({
  burnId: id,
  elapsedUs: z.int(),
  waterTempC: z.number().optional(),
  standardUncertaintyK: z.number().optional(),
  rateKPerMin: z.number().optional(),
  targetTempC: z.number().optional(),
  boilingTempC: z
    .number()
    .optional()
    .describe('where water boils at this place, as far as its pressure or height is known'),
  aboveBoilK: z
    .number()
    .optional()
    .describe('steady water is so much hotter than it can boil here, beyond what the probes may err'),
  toTargetS: z.strictObject({ value: z.number(), interval95: z.tuple([z.number(), z.number()]) }).optional(),
  sinceAttentionS: z.number().optional(),
  usualAttentionS: z.number().optional(),
  waterReadUs: z.int().optional().describe('when a person read the water; left out while a board reads it'),
  waterMeasuredUs: z.int().optional().describe('when a board last read the water, while one does'),
  hold: z
    .strictObject({
      state: z
        .enum(['notYet', 'counting', 'dropped', 'paused', 'done', 'ended'])
        .describe('`ended`: by a mark of the person, whatever is counted'),
      countedS: z.number(),
      neededS: z.number(),
      floorTempC: z.number(),
    })
    .optional(),
});
export type Estimate = z.infer<typeof estimateSchema>;

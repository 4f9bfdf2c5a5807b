/**
 * Schemas of the plan for the next test of an idea: what it is confounded with, how many days it needs, and which
 * revision to burn on which day.
 */
import { z } from 'zod';
import { messageSchema } from './results.ts';

const text = z.string().trim().min(1).max(200);

export const ideaSchema = z.strictObject({
  change: text.describe('the idea in words, as it will stand on the card'),
  parts: z.array(text).max(12).default([]).describe('everything that would change, each by itself'),
  worthKnowing: z.number().min(0.01).max(1).default(0.1).describe('relative difference worth a test'),
  days: z.int().min(2).max(30).optional().describe('of each revision; the number proposed when left out'),
  lots: z
    .array(z.strictObject({ name: text, burns: z.int().min(1).max(200).describe('for how many burns it lasts') }))
    .max(12)
    .default([]),
});
export type Idea = z.output<typeof ideaSchema>;

export const nextTestSchema = z.strictObject({
  change: z.string(),
  base: z.string().describe('label of the revision that the idea starts from'),
  proposedDays: z
    .strictObject({ low: z.int().optional(), likely: z.int().optional(), high: z.int().optional() })
    .optional()
    .describe('of each, for 80 % power; left out while the scatter of the stove is not known'),
  days: z.int().describe('of each, as on the card'),
  says: z.array(z.strictObject({ message: messageSchema, sentence: z.string() })),
  card: z.array(
    z.strictObject({
      day: z.int().positive(),
      revision: z.enum(['base', 'new']),
      lot: z.string().optional().describe('left out where no lot that was named is left'),
    }),
  ),
});
export type NextTest = z.infer<typeof nextTestSchema>;

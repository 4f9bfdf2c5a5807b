/** Schemas of the marks, weighings and exclusions of a burn, in requests and answers. */
import { z } from 'zod';
import { exclusionSchema } from './burn-record.ts';
import { by } from './by.ts';
import { markSchema } from './marks.ts';
import { weighingSchema } from './weighings.ts';

const id = z.uuid();

const versioned = { version: z.int().positive(), withdrawn: z.boolean() };
/** A mark or a weighing as stored: withdrawing it creates a version too, so an undo can itself be undone. */
export const versionedMarkSchema = z.strictObject({ mark: markSchema, ...versioned });
export const versionedWeighingSchema = z.strictObject({ weighing: weighingSchema, ...versioned });
export const versionedExclusionSchema = z.strictObject({ exclusion: exclusionSchema, ...versioned });
export type VersionedMark = z.infer<typeof versionedMarkSchema>;
export type VersionedWeighing = z.infer<typeof versionedWeighingSchema>;
export type VersionedExclusion = z.infer<typeof versionedExclusionSchema>;

/**
 * All weighings after a burn in one request: all of them are saved, or none. Sending it again after a lost answer
 * changes nothing.
 */
export const weighUpSchema = z.strictObject({
  weighings: z
    .array(
      z.strictObject({
        weighing: weighingSchema,
        expectedVersion: z.int().positive().optional().describe('of the weighing it corrects; left out for a new one'),
      }),
    )
    .max(100),
  takeBack: z
    .array(z.strictObject({ id, expectedVersion: z.int().positive() }))
    .max(100)
    .optional(),
  status: z
    .enum(['ended', 'complete'])
    .optional()
    .describe('what becomes of the burn; either stops a recording that runs. Left out, it stays as it is'),
  by,
});
export type WeighUp = z.infer<typeof weighUpSchema>;

/**
 * A mark in a request. `elapsedUs` may be left out: the service then takes its own present time less `agoS`. `id` may
 * be left out by a client that will not repeat the request.
 */
export const createMarkSchema = z.looseObject({
  id: id.optional(),
  kind: z.string(),
  elapsedUs: z.int().optional(),
  agoS: z.number().nonnegative().optional(),
});

/** The schema of an error answer. */
import { z } from 'zod';

/**
 * Every error answer has this shape; the code is one of the error codes of shared/language, the message says what is
 * wrong and what to do.
 */
export const problemSchema = z.strictObject({
  code: z.string(),
  message: z.string(),
  issues: z.array(z.strictObject({ path: z.string(), message: z.string() })).optional(),
  details: z.record(z.string(), z.json()).optional(),
});
export type Problem = z.infer<typeof problemSchema>;

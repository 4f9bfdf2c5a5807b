/** What a refusal looks like. */
import { z } from 'zod';

/** Every refusal has this shape; the code is one of shared/language's error codes, the message a sentence to act on. */
export const problemSchema = z.strictObject({
  code: z.string(),
  message: z.string(),
  issues: z.array(z.strictObject({ path: z.string(), message: z.string() })).optional(),
  details: z.record(z.string(), z.json()).optional(),
});
export type Problem = z.infer<typeof problemSchema>;

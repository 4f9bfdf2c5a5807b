/** The schema of a finished backup. */
import { z } from 'zod';

export const backupSchema = z.strictObject({
  folder: z.string().describe('on the machine of the service'),
  burns: z.int(),
  madeAtUtcMs: z.int(),
});
export type Backup = z.infer<typeof backupSchema>;

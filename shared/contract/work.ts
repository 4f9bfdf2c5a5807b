/** Long work that somebody waits for: what it is, and how far. */
import { z } from 'zod';

export const workKinds = [
  'receiving',
  'reading',
  'importing',
  'comparing',
  'exporting',
  'reporting',
  'publishing',
  'backingUp',
] as const;

export const workSchema = z.strictObject({
  id: z.uuid().describe('as whoever asked for it named it by the header stovebench-work, else its own'),
  kind: z.enum(workKinds),
  done: z.int().nonnegative(),
  of: z.int().nonnegative().describe('0 while it is not known'),
});
export type Work = z.infer<typeof workSchema>;

/** The schema of a bench's identity, which distinguishes it from other benches. */
import { z } from 'zod';

const name = z.string().trim().min(1).max(120);

export const benchSchema = z.strictObject({
  id: z.uuid().describe('of this installation; stays when it is named anew, restored or moved'),
  name,
});

export const nameBenchSchema = z.strictObject({ name });

export type Bench = z.infer<typeof benchSchema>;

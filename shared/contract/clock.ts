/** The clock of the service, and a time that a client offers to set it by. */
import { z } from 'zod';

export const offeredClockSchema = z.strictObject({ utcMs: z.int().describe('UTC milliseconds since 1970') });

export const serviceClockSchema = z.strictObject({
  serviceUtcMs: z.int(),
  clockSource: z
    .enum(['machine', 'phone', 'none'])
    .describe('none: the machine has no clock, and nobody has offered one'),
});

/** The health and identity of the service. */
import { z } from 'zod';
import { serviceClockSchema } from './clock.ts';

export const healthSchema = z.strictObject({
  ...serviceClockSchema.shape,
  status: z.literal('ok'),
  version: z.string(),
  epoch: z.string().describe('new at every start of the service'),
  demo: z.boolean(),
  timeScale: z.number(),
  simulatorAvailable: z.boolean(),
});
export type Health = z.infer<typeof healthSchema>;

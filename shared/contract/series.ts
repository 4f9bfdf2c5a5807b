/** Curves for a chart: at most about two points per pixel, with extremes and gaps preserved. `null` is a gap. */
import { z } from 'zod';

const id = z.uuid();

export const seriesSchema = z.strictObject({
  burnId: id,
  litS: z.number().optional(),
  curves: z.array(
    z.strictObject({
      id: z.string().describe('channel id, or "water" for the mean of the water probes, or "waterRate"'),
      role: z.string(),
      name: z.string(),
      unit: z.string(),
      handRead: z.literal(true).optional().describe('read by a person: every point is one reading'),
      t: z.array(z.number()).describe('elapsed s'),
      v: z.array(z.number().nullable()),
    }),
  ),
});
export type Series = z.infer<typeof seriesSchema>;

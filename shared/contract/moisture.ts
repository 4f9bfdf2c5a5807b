/** The moisture of wood, on either basis, and how it was measured. */
import { z } from 'zod';

const moistureFraction = z.number().min(0).max(2).describe('0.20 is 20 %');

export const moistureSchema = z.strictObject({
  fraction: moistureFraction,
  basis: z
    .enum(['wet', 'dry'])
    .describe('wet: water / wet wood; dry: water / oven-dry wood. Pin meters usually read dry'),
  how: z.enum(['ovenDry', 'meter', 'guess']),
  standardUncertainty: z.number().positive().optional().describe('same basis, as a fraction'),
  readings: z
    .array(moistureFraction)
    .min(2)
    .max(100)
    .optional()
    .describe('the single readings of which the fraction is the mean, same basis, in the order taken'),
});
export type Moisture = z.infer<typeof moistureSchema>;

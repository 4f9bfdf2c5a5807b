/** The invented burns that show what a bench looks like after a while. */
import { z } from 'zod';

export const samplesSchema = z.strictObject({ kept: z.int().nonnegative(), of: z.int().positive() });

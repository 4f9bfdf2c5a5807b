/** The invented sample burns, which show a bench after some months of use. */
import { z } from 'zod';

export const samplesSchema = z.strictObject({ kept: z.int().nonnegative(), of: z.int().positive() });

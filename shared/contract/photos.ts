/** Photos of revisions and marks. */
import { z } from 'zod';

/** The name by which revisions and marks refer to a photo. */
export const photoNameSchema = z.string().regex(/^[0-9a-f]{64}\.(jpg|png|webp)$/);
export const photoSchema = z.strictObject({ photo: photoNameSchema });

/** Photos of revisions and marks. */
import { z } from 'zod';

/** A photo as revisions and marks name it. */
export const photoNameSchema = z.string().regex(/^[0-9a-f]{64}\.(jpg|png|webp)$/);
export const photoSchema = z.strictObject({ photo: photoNameSchema });

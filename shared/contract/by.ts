/** Who says something, as they call themselves; left out where nobody said. */
import { z } from 'zod';

export const by = z.string().trim().min(1).max(120).optional();

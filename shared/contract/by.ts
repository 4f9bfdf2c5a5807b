/** The name of the person who makes an entry, as they typed it; left out where it was not entered. */
import { z } from 'zod';

export const by = z.string().trim().min(1).max(120).optional();

/** Small schemas that several routes share. */
import { z } from 'zod';
import { problemSchema } from '../../shared/contract/problem.ts';

export const id = z.uuid();
export const idParam = z.strictObject({ id });

/** Every route may refuse with this. */
export const problems = { '4xx': problemSchema, '5xx': problemSchema } as const;

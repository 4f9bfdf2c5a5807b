/** Small schemas that several routes share. */
import { z } from 'zod';
import { problemSchema } from '../../shared/contract/problem.ts';

export const id = z.uuid();
export const idParam = z.strictObject({ id });

/** A whole number in a query. Coercion would read an empty text as 0. */
export const wholeNumber = (least: number, most: number) =>
  z
    .string()
    .regex(/^-?\d{1,15}$/)
    .transform(Number)
    .pipe(z.int().min(least).max(most));

export const anyNumber = z
  .string()
  .regex(/^-?\d{1,12}(\.\d{1,9})?$/)
  .transform(Number);

export const by = z.string().trim().min(1).max(120).optional();

/** Every route may refuse with this. */
export const problems = { '4xx': problemSchema, '5xx': problemSchema } as const;

import type { Fields } from './field-spec.ts';

/** The properties for which there is no field. */
export function unchangedFields<T extends object>(fields: Fields, known: T): Partial<T> {
  return Object.fromEntries(Object.entries(known).filter(([key]) => !(key in fields))) as Partial<T>;
}

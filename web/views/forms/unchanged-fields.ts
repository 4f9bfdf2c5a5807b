import type { Fields } from './field-spec.ts';

/** What no field asks for. */
export function unchangedFields<T extends object>(fields: Fields, known: T): Partial<T> {
  return Object.fromEntries(Object.entries(known).filter(([key]) => !(key in fields))) as Partial<T>;
}

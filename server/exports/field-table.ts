/** Tables of things that fit in memory: a column is declared together with how its cell is taken from one thing. */
import { type Cell, type Table, type TableColumn, tableOf } from './table.ts';

/** A column and how its cell is taken from one thing. */
export type Field<T> = TableColumn & { readonly of: (thing: T) => Cell | undefined };

export const text = <T>(name: string, description: string, of: Field<T>['of']): Field<T> => ({
  name,
  type: 'text',
  description,
  of,
});

/** @param unit UCUM; null for a plain number */
export const number = <T>(name: string, unit: string | null, description: string, of: Field<T>['of']): Field<T> => ({
  name,
  type: 'number',
  ...(unit !== null && { unit }),
  description,
  of,
});

export const integer = <T>(name: string, description: string, of: Field<T>['of']): Field<T> => ({
  name,
  type: 'integer',
  description,
  of,
});

export const timestamp = <T>(name: string, description: string, of: Field<T>['of']): Field<T> => ({
  name,
  type: 'timestamp',
  description,
  of,
});

/** One row a thing, one column a field. */
export function fieldTable<T>(
  head: Omit<Table, 'columns' | 'pages'>,
  things: readonly T[],
  fields: readonly Field<T>[],
): Table {
  return tableOf({
    ...head,
    columns: fields.map(({ of: _of, ...column }) => column),
    rows: things.map((thing) => fields.map(({ of }) => of(thing) ?? null)),
  });
}

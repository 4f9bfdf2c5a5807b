/** A row of the dataset, typed by the declaration of its table. */
import type { ColumnType, DatasetTable } from './column.ts';

interface Stored {
  text: string;
  textList: readonly string[];
  int32: number;
  int64: number;
  float64: number;
  /** Microseconds since 1970, UTC. */
  timestamp: number;
  boolean: boolean;
}

type ValueOf<C> = C extends { readonly type: infer T extends ColumnType }
  ? Stored[T] | (C extends { readonly nullWhen: string } ? null : never)
  : never;

export type RowOf<T extends DatasetTable> = { [C in T['columns'][number] as C['name']]: ValueOf<C> };

/** A row of any table. */
export type DatasetRow = Readonly<Record<string, DatasetValue>>;

/** Any value of a column. */
type DatasetValue = Stored[ColumnType] | null;

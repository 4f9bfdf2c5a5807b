/** The type of a declaration of a column of the dataset. */

/**
 * text: UTF-8; textList: list of UTF-8; int32, int64: whole numbers; float64: IEEE 754 double; timestamp: UTC in microseconds;
 * boolean. Text is dictionary-encoded.
 */
export type ColumnType = 'text' | 'textList' | 'int32' | 'int64' | 'float64' | 'timestamp' | 'boolean';

export interface Column {
  readonly name: string;
  readonly type: ColumnType;
  /** UCUM; left out where there is none or where another column of the row contains it. */
  readonly unit?: string;
  readonly meaning: string;
  /** When the column is null; left out where it never is. */
  readonly nullWhen?: string;
}

export interface DatasetTable {
  readonly name: string;
  /** What one row stands for. */
  readonly row: string;
  /** The primary key: columns whose values together are unique in the table. */
  readonly key: readonly string[];
  /** The order of the rows in one file. */
  readonly order: string;
  readonly columns: readonly Column[];
}

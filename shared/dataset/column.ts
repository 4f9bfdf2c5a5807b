/** How a column of the dataset is declared. */

/**
 * text: UTF-8; textList: list of UTF-8; int32, int64: whole numbers; float64: IEEE 754 double; timestamp: UTC in microseconds;
 * boolean. Text is dictionary-encoded.
 */
export type ColumnType = 'text' | 'textList' | 'int32' | 'int64' | 'float64' | 'timestamp' | 'boolean';

export interface Column {
  readonly name: string;
  readonly type: ColumnType;
  /** UCUM; left out where there is none or where it stands in a column of the row. */
  readonly unit?: string;
  readonly meaning: string;
  /** When the column is null; left out where it never is. */
  readonly nullWhen?: string;
}

export interface DatasetTable {
  readonly name: string;
  /** What one row is. */
  readonly row: string;
  /** Columns that no two rows of the table share. */
  readonly key: readonly string[];
  /** How the rows of one file are in order. */
  readonly order: string;
  readonly columns: readonly Column[];
}

/** A table that may be far larger than memory: rows come page by page, column by column. */
export type Cell = number | string | null;

export interface TableColumn {
  readonly name: string;
  /** The cells of a timestamp are whole milliseconds since 1970-01-01 00:00 UTC. */
  readonly type: 'number' | 'integer' | 'timestamp' | 'text';
  /** UCUM; left out for text and plain counts. */
  readonly unit?: string;
  /** What a probe measures, on the one of its columns that a chart draws. */
  readonly role?: string;
  readonly description: string;
}

/** A column whose cells are found in the column of that name of another table. */
export interface Reference {
  readonly column: string;
  readonly table: string;
  readonly of: string;
}

export interface Table {
  /** Short, in lower case: file name of a CSV, name of a sheet. */
  readonly name: string;
  readonly description: string;
  readonly columns: readonly TableColumn[];
  /** Headings of the columns that together are another in every row; none for a table of one row. */
  readonly primaryKey?: readonly string[];
  readonly references?: readonly Reference[];
  /** Pages of columns; every column of a page has the same length. Calling it again starts again. */
  pages(): Iterable<readonly (readonly Cell[])[]>;
}

/** Make a table from rows that fit in memory. */
export function tableOf(table: Omit<Table, 'pages'> & { readonly rows: readonly (readonly Cell[])[] }): Table {
  const { rows, ...head } = table;
  return { ...head, pages: () => [head.columns.map((_, column) => rows.map((row) => row[column] ?? null))] };
}

/** Name and unit as a heading: "water_low [Cel]". */
export function heading(column: TableColumn): string {
  return column.unit === undefined ? column.name : `${column.name} [${column.unit}]`;
}

/** Headings that no two columns share, as most readers of tables ask: the second "water" becomes "water 2". */
export function withUniqueNames(columns: readonly TableColumn[]): TableColumn[] {
  const taken = new Set<string>();
  return columns.map((column) => {
    let unique = column;
    for (let number = 2; taken.has(heading(unique)); number++) unique = { ...column, name: `${column.name} ${number}` };
    taken.add(heading(unique));
    return unique;
  });
}

/** A timestamp as text: ISO 8601, UTC, to the millisecond. */
export function timestampText(utcMs: number): string {
  return new Date(utcMs).toISOString();
}

/** A table that may be far larger than memory: rows come page by page, column by column. */
export type Cell = number | string | null;

export interface TableColumn {
  readonly name: string;
  readonly type: 'number' | 'integer' | 'text';
  /** UCUM; left out for text and plain counts. */
  readonly unit?: string;
  readonly description: string;
}

export interface Table {
  /** Short, in lower case: file name of a CSV, name of a sheet. */
  readonly name: string;
  readonly description: string;
  readonly columns: readonly TableColumn[];
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

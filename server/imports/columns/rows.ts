import { parse } from 'csv-parse/sync';
import type { ColumnFormat } from '../../../shared/contract/imports.ts';

export interface Row {
  /** Line of the file, from 1, on which the row ends. */
  line: number;
  cells: string[];
}

const delimiters: Record<Exclude<ColumnFormat['separator'], 'blanks'>, string> = {
  comma: ',',
  semicolon: ';',
  tab: '\t',
  pipe: '|',
};

/**
 * Goes through the rows of a text; blank ones are left out. Quotes are understood and forgiven where they are wrong, a row
 * may have any number of cells.
 * @param to the last row wanted
 */
export function eachRow(
  text: string,
  separator: ColumnFormat['separator'],
  take: (row: Row) => void,
  to?: number,
): void {
  if (separator === 'blanks') {
    eachLine(text, take, to);
    return;
  }
  parse(text, {
    delimiter: delimiters[separator],
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    skip_records_with_empty_values: true,
    trim: separator !== 'tab',
    ...(to !== undefined && { to }),
    on_record(cells: string[], { lines }: { lines: number }) {
      take({ line: lines, cells: separator === 'tab' ? cells.map((cell) => cell.trim()) : cells });
      // Nothing is collected: a long file would be in memory twice.
      return null;
    },
  });
}

function eachLine(text: string, take: (row: Row) => void, to = Number.POSITIVE_INFINITY): void {
  let line = 0;
  let rows = 0;
  for (const [raw] of text.matchAll(/[^\r\n]*(?:\r\n|\r|\n|$)/g)) {
    line++;
    const trimmed = raw.trim();
    if (trimmed === '') continue;
    if (++rows > to) return;
    take({ line, cells: trimmed.split(/\s+/) });
  }
}

export function firstRows(text: string, separator: ColumnFormat['separator'], count: number): Row[] {
  const rows: Row[] = [];
  eachRow(text, separator, (row) => rows.push(row), count);
  return rows;
}

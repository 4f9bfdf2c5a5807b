/** A table for a person at a terminal. */
export type Table = {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
};

/** Numbers to four significant digits: the measurements here are not repeatable more closely. */
function cellText(cell: string | number): string {
  if (typeof cell === 'string') return cell;
  return Number.isInteger(cell) ? String(cell) : String(Number(cell.toPrecision(4)));
}

/** The table as lines of text: text left-aligned, numbers right-aligned, two blanks between columns. */
export function tableText({ title, columns, rows }: Table): string {
  const texts = rows.map((row) => row.map(cellText));
  const widths = columns.map((column, at) => Math.max(column.length, ...texts.map((row) => row[at]?.length ?? 0)));
  const isNumber = columns.map((_, at) => rows.every((row) => typeof row[at] === 'number'));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, at) => (isNumber[at] ? cell.padStart(widths[at] ?? 0) : cell.padEnd(widths[at] ?? 0)))
      .join('  ')
      .trimEnd();
  return [title, line(columns), line(widths.map((width) => '-'.repeat(width))), ...texts.map(line)].join('\n');
}

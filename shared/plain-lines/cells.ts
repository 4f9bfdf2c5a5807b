import type { PlainFormat } from '../contract/boards.ts';
import type { PlainCell } from './field.ts';
import { jsonCells } from './json-cells.ts';
import { labelledCells } from './labelled-cells.ts';
import { splitPlainLine, withoutLeadingClock } from './split-line.ts';
import { unitWritten } from './written-units.ts';

/** The layout of a board's lines, without its columns. */
export type PlainLayout = Pick<PlainFormat, 'layout' | 'separator' | 'decimal' | 'leadingClock'>;

/**
 * Returns the fields of a line under the places by which a format finds them; none when the line is not of this layout.
 */
export function cellsOf(line: string, { layout, separator, decimal, leadingClock }: PlainLayout): PlainCell[] {
  if (layout === 'json') return jsonCells(withoutLeadingClock(line)) ?? [];
  if (layout === 'labelled') return labelledCells(withoutLeadingClock(line), decimal).cells;
  const fields = splitPlainLine(leadingClock ? withoutLeadingClock(line) : line, separator);
  return fields.map((field, index) => {
    const next = fields[index + 1] ?? '';
    // Between blanks a unit is a field of its own, after its number.
    const hasUnit = separator === 'blanks' && /\d$/.test(field) && unitWritten(next) !== undefined;
    return { key: String(index), text: hasUnit ? `${field} ${next}` : field };
  });
}

/** Returns the place at which a format finds a column. */
export function placeOf({ column, key }: Pick<PlainFormat['columns'][number], 'column' | 'key'>): string {
  return key ?? String(column);
}

import type { BoardPreview } from '../contract/boards.ts';
import { columnUnits } from '../contract/ucum-units.ts';
import type { PlainLayout } from './cells.ts';
import { type ColumnLayout, columnLayouts } from './column-layouts.ts';
import { describeColumns, describeKeyed } from './describe-format.ts';
import { readPlainField } from './field.ts';
import { jsonCells } from './json-cells.ts';
import { labelledCells } from './labelled-cells.ts';
import { withoutLeadingClock } from './split-line.ts';
import { storedUnits } from './stored-units.ts';

export type PlainGuess = Omit<BoardPreview, 'lines'>;

/** The least share of the lines with digits that a layout has to fit. */
const MOST = 0.6;
/**
 * Guesses how a board lays out its numbers, for a live preview that a person can correct. A column without a printed
 * unit has none in the guess: the person who attaches the board has to choose it.
 *
 * @param lines what the board printed, whole lines; a dozen is enough
 * @param known the parts of the layout that a person has chosen
 */
export function guessPlainFormat(lines: readonly string[], known: Partial<PlainLayout> = {}): PlainGuess {
  const printed = lines.filter((line) => line.trim() !== '');
  const bare = printed.map(withoutLeadingClock);
  const dated = printed.filter((line, index) => bare[index] !== line).length;
  const leadingClock = dated > 0 && dated >= MOST * countWithDigits(printed);
  const clock = leadingClock ? { leadingClock: true as const } : {};
  const rows = leadingClock ? bare : printed;

  const { layouts, ambiguous } = columnLayouts(rows, known);
  const asColumns = layouts.map((layout) => describeColumns(layout, rows, clock));
  const keyed = known.layout === 'columns' ? undefined : keyedLayout(bare, known);
  const asKeyed = keyed && isBetter(keyed, layouts[0], bare, known) ? describeKeyed(bare, keyed.format) : undefined;
  if (asKeyed) return { format: asKeyed, ambiguous: false, alternatives: asColumns };
  return { format: asColumns[0] ?? null, ambiguous, alternatives: asColumns.slice(1) };
}

function countWithDigits(lines: readonly string[]): number {
  return lines.filter((line) => /\d/.test(line)).length;
}

interface KeyedLayout {
  format: PlainLayout;
  /** Lines with a number under a label or a path. */
  lines: number;
  /** Numbers under a label or a path. */
  numbers: number;
  /** Numbers in them without a label. */
  stray: number;
  hasMarks: boolean;
}

/** Returns the layout that finds values by labels or paths; undefined where too few lines fit it. */
function keyedLayout(lines: readonly string[], known: Partial<PlainLayout>): KeyedLayout | undefined {
  const { layout, separator = 'comma' } = known;
  const least = Math.max(1, MOST * countWithDigits(lines));
  const json = lines.filter((line) => jsonCells(line)?.some(({ text }) => isNumber(text, 'point'))).length;
  if (layout === 'json' || (layout === undefined && json >= least)) {
    const format: PlainLayout = { layout: 'json', separator, decimal: 'point' };
    return json > 0 ? { format, lines: json, numbers: json, stray: 0, hasMarks: true } : undefined;
  }
  const read = (known.decimal ? [known.decimal] : (['point', 'comma'] as const)).map((decimal): KeyedLayout => {
    const rows = lines
      .map((line) => labelledCells(line, decimal))
      .filter(({ cells }) => cells.some(({ text }) => isNumber(text, decimal)));
    return {
      format: { layout: 'labelled', separator, decimal },
      lines: rows.length,
      numbers: rows.reduce((sum, { cells }) => sum + cells.filter(({ text }) => isNumber(text, decimal)).length, 0),
      stray: rows.reduce((sum, row) => sum + row.stray, 0),
      hasMarks: rows.filter((row) => row.hasMarks).length * 2 > rows.length,
    };
  });
  const best = read.sort((a, b) => b.lines - a.lines || b.numbers - a.numbers || a.stray - b.stray)[0]!;
  return best.lines >= (layout ? 1 : least) ? best : undefined;
}

function isNumber(text: string, decimal: PlainLayout['decimal']): boolean {
  return readPlainField(text, decimal).kind === 'number';
}

/**
 * Whether labels identify values better than columns: they precede the values with marks, or distinguish lines of one
 * shape.
 */
function isBetter(
  { format, lines: count, stray, hasMarks }: KeyedLayout,
  columns: ColumnLayout | undefined,
  lines: readonly string[],
  known: Partial<PlainLayout>,
): boolean {
  if (known.layout !== undefined || format.layout === 'json' || columns === undefined) return true;
  if (hasMarks) return count >= columns.rows.length && stray * 2 < count;
  const first = lines.flatMap((line) => labelledCells(line, format.decimal).cells.slice(0, 1));
  const labels = new Set(first.map(({ key }) => key));
  // A sign separated from its number becomes another column; a single value with its unit is found without columns.
  const isAlone = labels.size === 1 && [...labels].some((label) => columnUnits.some((unit) => unit === label));
  if (isAlone && columns.hasText && columns.separator === 'blanks') return true;
  const isAlternating = labels.size > 1 && (labels.size < first.length || first.length <= 4);
  return isAlternating && (columns.hasText || quantitiesOf(columns) > 1);
}

/** The number of quantities to which the units after the numbers of a single column belong. */
function quantitiesOf({ rows, decimal, columnCount }: ColumnLayout): number {
  if (columnCount > 1) return 0;
  const quantities = rows.flatMap(([text = '']) => {
    const field = readPlainField(text, decimal);
    return field.kind === 'number' && field.unit ? [storedUnits[field.unit].unit] : [];
  });
  return new Set(quantities).size;
}

/** Describes the columns of a board from its lines: names, units, the board's clock. */
import type { GuessedFormat } from '../contract/boards.ts';
import { cellsOf, type PlainLayout } from './cells.ts';
import { type ColumnLayout, headingsOf } from './column-layouts.ts';
import { isCountHeading } from './count-heading.ts';
import { readPlainField } from './field.ts';
import { decimalsFor } from './read-line.ts';
import { unitBehind } from './unit-behind.ts';
import { unitsIn } from './written-units.ts';

/** All fields at one place of the lines. */
interface Series {
  place: { column: number } | { key: string };
  heading: string | undefined;
  texts: readonly string[];
}

const LONGEST_NAME = 120;
const TITLE_OF_TIME = /time|temps|zeit|millis|clock|\bms\b|\bsec|^t$|uptime/i;
const KEY_OF_TIME = /(?:^|[._ ])(?:time(?:stamp)?|millis|clock|ms|secs?|seconds|uptime(?:_?m?s)?|time_?m?s|ts|t)$/i;

/** Describes columns that are found by their index. */
export function describeColumns(
  layout: ColumnLayout,
  lines: readonly string[],
  clock: Pick<PlainLayout, 'leadingClock'>,
): GuessedFormat {
  const { separator, decimal, rows, columnCount, firstRow, hasText } = layout;
  const headings = headingsOf(layout, lines);
  const format: PlainLayout = { separator, decimal, ...clock };
  const read = layout.lines.map((line) => cellsOf(line, { separator, decimal }).map(({ text }) => text));
  const all = Array.from({ length: columnCount }, (_, column): Series => {
    const texts = read.map((row) => row[column] ?? '');
    const heading =
      headings?.[column] || labelBefore(texts[0]!) || (hasText ? wordsBefore(rows, column, decimal) : undefined);
    return { place: { column }, heading, texts };
  });
  const series = all.filter(({ heading, texts }, column) => {
    if (texts.every((text) => text === '')) return heading !== undefined;
    return !hasText || rows.some((row) => readPlainField(row[column]!, decimal).kind !== 'text');
  });
  const time = timeOf(series[0], decimal, columnCount);
  const isHeaded = headings !== undefined && firstRow > 0;
  return {
    ...format,
    headerLines: isHeaded ? Math.min(20, firstRow) : 0,
    ...(time && series.length > 1 && { timeColumn: 0, timeUnit: time }),
    columns: columnsOf(time && series.length > 1 ? series.slice(1) : series, decimal),
  };
}

/** Describes columns that are found by labels or paths; undefined when there are none. */
export function describeKeyed(lines: readonly string[], format: PlainLayout): GuessedFormat | undefined {
  const texts = new Map<string, string[]>();
  for (const line of lines) {
    for (const { key, text } of cellsOf(line, format)) texts.set(key, [...(texts.get(key) ?? []), text]);
  }
  const usual = Math.max(0, ...[...texts.values()].map((each) => each.length));
  const series = [...texts]
    .filter(
      // A label printed once, among many lines, belongs to the output at start.
      ([, each]) =>
        each.length * 4 > usual &&
        each.some((text) => text !== '' && readPlainField(text, format.decimal).kind !== 'text'),
    )
    .map(([key, each]): Series => ({ place: { key }, heading: key, texts: each }));
  const time = series.find((each) => isKeyedTime(each, format.decimal));
  const measured = series.filter((each) => each !== time);
  if (measured.length === 0) return undefined;
  return {
    ...format,
    headerLines: 0,
    ...(time && { timeKey: time.heading!, timeUnit: timeUnitOf(numbersOf(time, format.decimal), time.heading!) }),
    columns: columnsOf(measured, format.decimal),
  };
}

function columnsOf(series: readonly Series[], decimal: PlainLayout['decimal']): GuessedFormat['columns'] {
  const measured = series.filter((each) => !isCountHeading(each.heading ?? ''));
  const chosen = measured.length > 0 ? measured : series;
  const named = unitsIn(chosen.map(({ heading }) => heading ?? ''));
  return chosen.map(({ place, heading, texts }, index) => {
    const printed = unitBehind(texts, decimal);
    const unit = printed ?? named[index];
    const decimals = decimalsFor(numbersOf({ texts }, decimal));
    const number = 'column' in place ? place.column + 1 : index + 1;
    return {
      ...place,
      name: (heading || `Column ${number}`).slice(0, LONGEST_NAME),
      ...(unit && { unit }),
      ...(decimals !== undefined && { decimals }),
      ...(printed && { printed }),
      unitFrom: printed ? ('number' as const) : unit ? ('heading' as const) : ('nowhere' as const),
    };
  });
}

function labelBefore(text: string): string | undefined {
  return /^([A-Za-z_][^=:,;]{0,40}?)\s*(?:=>|->|[=:])/.exec(text)?.[1]?.trim();
}

/** The words before a number in every row are its name. */
function wordsBefore(rows: readonly string[][], column: number, decimal: PlainLayout['decimal']): string | undefined {
  const names = new Set(
    rows.map((row) => {
      const before = row.slice(0, column);
      const isNumber = before.map((field) => readPlainField(field, decimal).kind === 'number');
      return before.slice(isNumber.lastIndexOf(true) + 1).join(' ');
    }),
  );
  const [name = ''] = names;
  return names.size === 1 && /[A-Za-z]{3}|[A-Za-z]\d/.test(name) ? name : undefined;
}

function numbersOf({ texts }: Pick<Series, 'texts'>, decimal: PlainLayout['decimal']): number[] {
  return texts.flatMap((text) => {
    const field = readPlainField(text, decimal);
    return field.kind === 'number' ? [field.value] : [];
  });
}

/**
 * A first column that rises by nearly equal steps is the board's clock, with more certainty when its heading says so.
 */
function timeOf(
  first: Series | undefined,
  decimal: PlainLayout['decimal'],
  columnCount: number,
): 's' | 'ms' | undefined {
  if (!first || !('column' in first.place) || first.place.column !== 0) return undefined;
  const times = numbersOf(first, decimal);
  if (times.length < 3 || times.length < first.texts.length) return undefined;
  const steps = stepsOf(times);
  if (steps.some((step) => step <= 0)) return undefined;
  const title = first.heading ?? '';
  const even = isEven(steps);
  const titled = TITLE_OF_TIME.test(title);
  if (!titled && !(even && columnCount > 1 && steps.length >= 4 && Math.min(...steps) >= 1)) return undefined;
  return timeUnitOf(times, title);
}

function isKeyedTime(series: Series, decimal: PlainLayout['decimal']): boolean {
  const times = numbersOf(series, decimal);
  if (!KEY_OF_TIME.test(series.heading ?? '') || times.length < 3 || times.length < series.texts.length) return false;
  const steps = stepsOf(times);
  return steps.every((step) => step > 0) && (isEven(steps) || !/(?:^|\W)t$/i.test(series.heading ?? ''));
}

function stepsOf(values: readonly number[]): number[] {
  return values.slice(1).map((value, index) => value - values[index]!);
}

function isEven(steps: readonly number[]): boolean {
  return Math.max(...steps) <= 1.2 * Math.min(...steps) + 2;
}

function timeUnitOf(times: readonly number[], title: string): 's' | 'ms' {
  const whole = times.every(Number.isInteger);
  const least = Math.min(...stepsOf(times));
  return /(?:\b|_)ms\b|milli/i.test(title) || (!/(?:\b|_)s\b|sec/i.test(title) && whole && least >= 50) ? 'ms' : 's';
}

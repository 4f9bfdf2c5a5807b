import type { PlainFormat } from '../contract/boards.ts';

/** Splits a line into fields, for both the page and the service: an empty field before or after a tab counts. */
export function splitPlainLine(line: string, separator: PlainFormat['separator']): string[] {
  const trimmed = line.trim();
  switch (separator) {
    case 'comma':
      return trimmed.split(',').map((field) => field.trim());
    case 'semicolon':
      return trimmed.split(';').map((field) => field.trim());
    case 'tab':
      // A tab at the end of a line is an empty field, so only blanks are trimmed there.
      return line
        .replace(/^ +| +$/g, '')
        .split('\t')
        .map((field) => field.trim());
    case 'blanks':
      return trimmed === '' ? [] : trimmed.split(/\s+/);
  }
}

const CLOCK = '(?:\\d{4}-\\d{2}-\\d{2}[T ])?\\d{1,2}:\\d{2}(?::\\d{2}(?:[.,]\\d+)?)?(?:Z| ?[AaPp][Mm])?';
const ARROW = '(?:->|=>|[-:>|])?';
/** In brackets, before an arrow, or with seconds before a blank; before a separator it is a separate column. */
const LEADING_CLOCK = new RegExp(
  `^ *(?:[[(] *(?:${CLOCK}|\\d+(?:\\.\\d+)?) *(?:m?s)? *[\\])] *${ARROW}|${CLOCK} *(?:->|=>|>)|(?=\\S*:\\d{2}:|\\S* \\d{1,2}:\\d{2}:)${CLOCK} +(?![,;]))\\s*`,
);

/**
 * Returns a line without the time that a program which passed it on has put before it; the line itself when there is
 * none.
 */
export function withoutLeadingClock(line: string): string {
  const rest = line.replace(LEADING_CLOCK, '');
  return rest === '' ? line : rest;
}

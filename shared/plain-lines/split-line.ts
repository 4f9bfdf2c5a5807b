import type { PlainFormat } from '../contract/boards.ts';

/** The fields of a line, as the page shows them and the service reads them: an empty field before or after a tab is one. */
export function splitPlainLine(line: string, separator: PlainFormat['separator']): string[] {
  const trimmed = line.trim();
  switch (separator) {
    case 'comma':
      return trimmed.split(',').map((field) => field.trim());
    case 'semicolon':
      return trimmed.split(';').map((field) => field.trim());
    case 'tab':
      // A tab at the end of a line is an empty field, so blanks only are trimmed there.
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
/** In brackets, before an arrow, or with seconds before a blank; before a separator it is a column of its own. */
const LEADING_CLOCK = new RegExp(
  `^ *(?:[[(] *(?:${CLOCK}|\\d+(?:\\.\\d+)?) *(?:m?s)? *[\\])] *${ARROW}|${CLOCK} *(?:->|=>|>)|(?=\\S*:\\d{2}:|\\S* \\d{1,2}:\\d{2}:)${CLOCK} +(?![,;]))\\s*`,
);

/** A line without the clock that whoever passed it on has put in front of it; the line itself when there is none. */
export function withoutLeadingClock(line: string): string {
  const rest = line.replace(LEADING_CLOCK, '');
  return rest === '' ? line : rest;
}

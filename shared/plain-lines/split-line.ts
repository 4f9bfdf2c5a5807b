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

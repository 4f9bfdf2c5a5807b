/** The sentence on a problem of a board, in the person's language. */
import type { Message } from '../../../shared/contract/results.ts';
import { boardErrors } from '../../../shared/language/errors/board-errors.ts';
import type { ErrorEntry } from '../../../shared/language/errors/error-entry.ts';
import { language } from '../../preferences/preferences.ts';

export function boardErrorSentence({ code, params }: Message): string {
  const known: Readonly<Record<string, ErrorEntry>> = boardErrors;
  return known[code]?.[language.value](params) ?? code;
}

import { type ErrorCode, errorsEn } from './errors.en.ts';
import { errorsFr } from './errors.fr.ts';
import type { Language, Params, Sentence } from './language.ts';

const catalogues: Record<Language, Record<ErrorCode, Sentence>> = { en: errorsEn, fr: errorsFr };

/** The sentence for an error code in the reader's language. */
export function errorSentence(language: Language, code: ErrorCode, params: Params = {}): string {
  return catalogues[language][code](params);
}

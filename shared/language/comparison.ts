import type { Message } from '../contract/results.ts';
import { type ComparisonCode, comparisonEn } from './comparison.en.ts';
import { comparisonFr } from './comparison.fr.ts';
import type { Language, Sentence } from './language.ts';

export type { ComparisonCode };

const catalogues: Record<Language, Record<ComparisonCode, Sentence>> = { en: comparisonEn, fr: comparisonFr };

/** The sentence for a message of comparing or predicting, in the reader's language. */
export function comparisonSentence(language: Language, { code, params }: Message): string {
  return catalogues[language][code as ComparisonCode](params);
}

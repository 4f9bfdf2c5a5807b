import type { Message } from '../../contract/results.ts';
import type { Language, Sentence } from '../language.ts';
import { comparisonEn } from './comparison.en.ts';
import { comparisonFr } from './comparison.fr.ts';
import { ladderEn } from './ladder.en.ts';
import { ladderFr } from './ladder.fr.ts';

export type ComparisonCode = keyof typeof comparisonEn | keyof typeof ladderEn;

const catalogues: Record<Language, Record<ComparisonCode, Sentence>> = {
  en: { ...comparisonEn, ...ladderEn },
  fr: { ...comparisonFr, ...ladderFr },
};

/** Returns the sentence of a message of a comparison or prediction, in the reader's language. */
export function comparisonSentence(language: Language, { code, params }: Message): string {
  return catalogues[language][code as ComparisonCode](params);
}

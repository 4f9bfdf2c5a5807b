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

/** The sentence for a message of comparing or predicting, in the reader's language. */
export function comparisonSentence(language: Language, { code, params }: Message): string {
  return catalogues[language][code as ComparisonCode](params);
}

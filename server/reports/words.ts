import { type Language, writeNumber } from '../../shared/language/language.ts';
import type { servicePartEn } from '../../shared/language/service/service-part.en.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';

export interface ReportWords extends Pick<typeof servicePartEn, 'report' | 'results'> {
  readonly number: (value: number, decimals: number) => string;
}

/** All sentences of a report, in one language. */
export function wordsOf(language: Language): ReportWords {
  const { report, results } = serviceParts[language];
  return { report, results, number: (value, decimals) => writeNumber(language, value, decimals) };
}

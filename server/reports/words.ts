import { type Language, writeNumber } from '../../shared/language/language.ts';
import { reportEn } from '../../shared/language/report.en.ts';
import { reportFr } from '../../shared/language/report.fr.ts';
import { resultsEn } from '../../shared/language/results.en.ts';
import { resultsFr } from '../../shared/language/results.fr.ts';

export interface ReportWords {
  readonly report: typeof reportEn;
  readonly results: typeof resultsEn;
  readonly number: (value: number, decimals: number) => string;
}

/** All sentences a report is made of, in one language. */
export function wordsOf(language: Language): ReportWords {
  return {
    report: language === 'fr' ? reportFr : reportEn,
    results: language === 'fr' ? resultsFr : resultsEn,
    number: (value, decimals) => writeNumber(language, value, decimals),
  };
}

import { type Language, writeNumber } from '../../shared/language/language.ts';
import { reportEn } from '../../shared/language/report/report.en.ts';
import { reportFr } from '../../shared/language/report/report.fr.ts';
import { resultsEn } from '../../shared/language/results/results.en.ts';
import { resultsFr } from '../../shared/language/results/results.fr.ts';

export interface ReportWords {
  readonly report: typeof reportEn;
  readonly results: typeof resultsEn;
  readonly number: (value: number, decimals: number) => string;
}

const reports: Record<Language, typeof reportEn> = { en: reportEn, fr: reportFr };
const results: Record<Language, typeof resultsEn> = { en: resultsEn, fr: resultsFr };

/** All sentences a report is made of, in one language. */
export function wordsOf(language: Language): ReportWords {
  return {
    report: reports[language],
    results: results[language],
    number: (value, decimals) => writeNumber(language, value, decimals),
  };
}

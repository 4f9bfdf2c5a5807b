/** The languages, with their formats of numbers and dates. The only file that formats a number for a person. */

export const languages = ['en', 'fr'] as const;
export type Language = (typeof languages)[number];

/** The name of each language in that language, and its formats. */
export const writing: Readonly<
  Record<
    Language,
    {
      readonly name: string;
      /** For dates: day first and the month in letters, so that the two cannot be confused. */
      readonly locale: string;
      readonly decimalMark: '.' | ',';
      /** Separator of groups of three digits; empty where there is none. */
      readonly groupMark: string;
      /** Separator of the ends of an interval. */
      readonly between: string;
    }
  >
> = {
  en: { name: 'English', locale: 'en-GB', decimalMark: '.', groupMark: '', between: ' to ' },
  fr: { name: 'français', locale: 'fr-FR', decimalMark: ',', groupMark: '\u202f', between: ' à ' },
};

/** The parameters of a sentence. Numbers are in SI; the sentence itself formats them. */
export type Params = Readonly<Record<string, string | number>>;
export type Sentence = (params: Params) => string;

/**
 * Formats a number with a fixed number of decimals. English: 1234.5; French: 1 234,5 with a narrow no-break space. A
 * true minus sign in both.
 */
export function writeNumber(language: Language, value: number, decimals: number): string {
  const plain = Math.abs(value).toFixed(decimals);
  const sign = value < 0 && Number(plain) !== 0 ? '−' : '';
  const { decimalMark, groupMark } = writing[language];
  const [whole = '', rest] = plain.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, groupMark);
  return sign + grouped + (rest === undefined ? '' : decimalMark + rest);
}

/** Returns the first supported language of an Accept-Language header, else English. */
export function languageFrom(header: string | undefined): Language {
  const wanted = (header ?? '')
    .split(',')
    .map((part) => {
      const [tag = '', weight] = part.trim().split(';q=');
      return { language: tag.slice(0, 2).toLowerCase(), weight: weight === undefined ? 1 : Number(weight) };
    })
    .filter((entry): entry is { language: Language; weight: number } => languages.includes(entry.language as Language))
    .sort((a, b) => b.weight - a.weight);
  return wanted[0]?.language ?? 'en';
}

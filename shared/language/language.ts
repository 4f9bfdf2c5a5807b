/** The languages, and how each writes numbers and dates. The only place where a number becomes text for a person. */

export const languages = ['en', 'fr'] as const;
export type Language = (typeof languages)[number];

/** How a language is called by who speaks it, and how it writes. */
export const writing: Readonly<
  Record<
    Language,
    {
      readonly name: string;
      /** For dates: day first and the month in letters, so that nobody takes one for the other. */
      readonly locale: string;
      readonly decimalMark: '.' | ',';
      /** Between groups of three figures; empty where large numbers are written without. */
      readonly groupMark: string;
      /** Between the ends of an interval. */
      readonly between: string;
    }
  >
> = {
  en: { name: 'English', locale: 'en-GB', decimalMark: '.', groupMark: '', between: ' to ' },
  fr: { name: 'français', locale: 'fr-FR', decimalMark: ',', groupMark: '\u202f', between: ' à ' },
};

/** What goes into a sentence. Numbers arrive in SI and are written by the sentence itself. */
export type Params = Readonly<Record<string, string | number>>;
export type Sentence = (params: Params) => string;

/**
 * Write a number with a fixed count of decimals.
 * English: 1234.5; French: 1 234,5 with a narrow no-break space. A true minus sign in both.
 */
export function writeNumber(language: Language, value: number, decimals: number): string {
  const plain = Math.abs(value).toFixed(decimals);
  const sign = value < 0 && Number(plain) !== 0 ? '−' : '';
  const { decimalMark, groupMark } = writing[language];
  const [whole = '', rest] = plain.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, groupMark);
  return sign + grouped + (rest === undefined ? '' : decimalMark + rest);
}

/** First language of an Accept-Language header that we speak; English otherwise. */
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

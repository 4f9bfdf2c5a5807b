/** The two languages, and how numbers are written in each. The only place where a number becomes text for a person. */

export const languages = ['en', 'fr'] as const;
export type Language = (typeof languages)[number];

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
  if (language === 'en') return sign + plain;
  const [whole = '', rest] = plain.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, '\u202f');
  return sign + grouped + (rest === undefined ? '' : `,${rest}`);
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

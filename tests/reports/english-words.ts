/** Finds English words in a text: words of the English catalogues that no French one has. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const catalogues = new URL('../../shared/language/', import.meta.url).pathname;

function wordsIn(text: string): string[] {
  return text.toLowerCase().match(/\p{L}{3,}/gu) ?? [];
}

/** Returns the words of the strings in the catalogues of one language. */
function wordsOf(language: 'en' | 'fr'): Set<string> {
  const files = readdirSync(catalogues, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith(`.${language}.ts`),
  );
  const sources = files.map((file) => readFileSync(join(catalogues, file), 'utf8'));
  // Keys of the French catalogue of formulas are English.
  const strings = sources.flatMap((source) => source.match(/'(?:\\.|[^'\\\n])*'(?!:)|`(?:\\.|[^`\\])*`/g) ?? []);
  return new Set(strings.map((text) => text.replaceAll(/\$\{[^}]*\}/g, ' ')).flatMap(wordsIn));
}

const french = wordsOf('fr');
const english = new Set([...wordsOf('en')].filter((word) => !french.has(word)));

/** Returns the English words in a text, without symbols with an index (T_read) and identifiers. */
export function englishWordsIn(text: string): string[] {
  const plain = text.replaceAll(/\S*_\S*|[0-9a-f]{8}-[0-9a-f-]{27}|\S*\.json/gi, ' ');
  return [...new Set(wordsIn(plain))].filter((word) => english.has(word));
}

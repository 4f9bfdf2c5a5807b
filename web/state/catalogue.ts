/**
 * The sentences of the chosen language, and of no other. Two parts: what the first screen says comes first,
 * the longer part about results and failures after it.
 */
import { signal } from '@preact/signals';
import type { Message } from '../../shared/contract/results.ts';
import type { ComparisonCode } from '../../shared/language/comparison.ts';
import type { Language, Sentence } from '../../shared/language/language.ts';
import type { pageEn } from '../../shared/language/page.en.ts';
import type { bringInEn } from '../../shared/language/page-bring-in.en.ts';
import type { compareEn } from '../../shared/language/page-compare.en.ts';
import type { rigEn } from '../../shared/language/page-rig.en.ts';
import type { resultsEn } from '../../shared/language/results.en.ts';

type Page = typeof pageEn;
interface Rest {
  readonly results: typeof resultsEn;
  readonly compare: typeof compareEn;
  readonly bringIn: typeof bringInEn;
  readonly rig: typeof rigEn;
  readonly comparison: { readonly [K in ComparisonCode]: Sentence };
}

const pages: Record<Language, () => Promise<Page>> = {
  en: async () => (await import('../../shared/language/page.en.ts')).pageEn,
  fr: async () => (await import('../../shared/language/page.fr.ts')).pageFr,
};
const rests: Record<Language, () => Promise<Rest>> = {
  en: async () => ({
    results: (await import('../../shared/language/results.en.ts')).resultsEn,
    compare: (await import('../../shared/language/page-compare.en.ts')).compareEn,
    bringIn: (await import('../../shared/language/page-bring-in.en.ts')).bringInEn,
    rig: (await import('../../shared/language/page-rig.en.ts')).rigEn,
    comparison: {
      ...(await import('../../shared/language/comparison.en.ts')).comparisonEn,
      ...(await import('../../shared/language/ladder.en.ts')).ladderEn,
    },
  }),
  fr: async () => ({
    results: (await import('../../shared/language/results.fr.ts')).resultsFr,
    compare: (await import('../../shared/language/page-compare.fr.ts')).compareFr,
    bringIn: (await import('../../shared/language/page-bring-in.fr.ts')).bringInFr,
    rig: (await import('../../shared/language/page-rig.fr.ts')).rigFr,
    comparison: {
      ...(await import('../../shared/language/comparison.fr.ts')).comparisonFr,
      ...(await import('../../shared/language/ladder.fr.ts')).ladderFr,
    },
  }),
};

const page = signal<Page | undefined>(undefined);
const rest = signal<{ language: Language; words: Rest } | undefined>(undefined);

let wanted: Language | undefined;

/**
 * Fetch a language and show the page in it. Rejects (and keeps the language shown so far) when the service cannot be
 * reached; false when another language was asked for meanwhile, which is then the one shown.
 */
export async function loadLanguage(language: Language): Promise<boolean> {
  wanted = language;
  // The first screen does not wait for the longer part; a page that is open changes as a whole.
  const [words, others] = await Promise.all([pages[language](), page.peek() && rests[language]()]);
  if (wanted !== language) return false;
  page.value = words;
  if (others) rest.value = { language, words: others };
  return true;
}

/** Fetch the sentences about results and failures, unless they are here. */
export async function loadRest(language: Language): Promise<void> {
  if (rest.peek()?.language === language) return;
  const words = await rests[language]();
  if (wanted === language || !rest.peek()) rest.value = { language, words };
}

/** The page's sentences. Reading it in a component makes the component follow a change of language. */
export function translate(): Page {
  if (!page.value) throw new Error('loadLanguage must come before the first screen');
  return page.value;
}

/** The sentences about results: names, reasons, defaults, remarks. */
export function translateResult(): Rest['results'] {
  if (!rest.value) throw new Error('loadRest must come before a screen that shows results');
  return rest.value.words.results;
}

/** The sentences of the comparing screens. */
export function translateCompare(): Rest['compare'] {
  if (!rest.value) throw new Error('loadRest must come before a comparing screen');
  return rest.value.words.compare;
}

/** The sentences of the screens that bring data in. */
export function translateBringIn(): Rest['bringIn'] {
  if (!rest.value) throw new Error('loadRest must come before a screen that brings data in');
  return rest.value.words.bringIn;
}

/** The sentences of the screens about boards and probes. */
export function translateRig(): Rest['rig'] {
  if (!rest.value) throw new Error('loadRest must come before a screen about boards');
  return rest.value.words.rig;
}

/** The sentence for a remark on a comparison that came as a code. */
export function translateRemark({ code, params }: Message): string {
  const sentences: Readonly<Record<string, Sentence>> = rest.value?.words.comparison ?? {};
  return sentences[code]?.(params) ?? code;
}

/**
 * The sentences of the chosen language, and of no other. Two parts: the sentences of the first screen are loaded first,
 * the longer part about results and failures after them.
 */
import { signal } from '@preact/signals';
import type { Message } from '../../shared/contract/results.ts';
import type { FindingWords } from '../../shared/language/board-check/finding-words.ts';
import type { Language, Sentence } from '../../shared/language/language.ts';
import type { firstPartEn } from '../../shared/language/screens/first-part.en.ts';
import type { laterPartEn } from '../../shared/language/screens/later-part.en.ts';

type FirstPart = typeof firstPartEn;
type LaterPart = typeof laterPartEn;

const firstParts: Record<Language, () => Promise<FirstPart>> = {
  en: async () => (await import('../../shared/language/screens/first-part.en.ts')).firstPartEn,
  fr: async () => (await import('../../shared/language/screens/first-part.fr.ts')).firstPartFr,
};
const laterParts: Record<Language, () => Promise<LaterPart>> = {
  en: async () => (await import('../../shared/language/screens/later-part.en.ts')).laterPartEn,
  fr: async () => (await import('../../shared/language/screens/later-part.fr.ts')).laterPartFr,
};

const first = signal<FirstPart | undefined>(undefined);
const later = signal<{ language: Language; catalogue: LaterPart } | undefined>(undefined);

let wanted: Language | undefined;

/**
 * Load a language and show the page in it. Rejects (and leaves the language unchanged) when the service cannot be
 * reached; false when another language was requested meanwhile, which is then the one shown.
 */
export async function loadLanguage(language: Language): Promise<boolean> {
  wanted = language;
  // The first screen does not wait for the longer part; an open page changes completely.
  const [firstPart, laterPart] = await Promise.all([firstParts[language](), first.peek() && laterParts[language]()]);
  if (wanted !== language) return false;
  first.value = firstPart;
  if (laterPart) later.value = { language, catalogue: laterPart };
  return true;
}

/** Load the sentences about results and failures, unless they are loaded. */
export async function loadLaterPart(language: Language): Promise<void> {
  if (later.peek()?.language === language) return;
  const catalogue = await laterParts[language]();
  if (wanted === language || !later.peek()) later.value = { language, catalogue };
}

/** The page's sentences. Reading it in a component subscribes the component to a change of language. */
export function translate(): FirstPart {
  if (!first.value) throw new Error('loadLanguage must come before the first screen');
  return first.value;
}

/** Reading it in a component makes the component follow a change of language. */
function laterPart(): LaterPart {
  if (!later.value) throw new Error('loadLaterPart must come before this screen');
  return later.value.catalogue;
}

/** The sentences about results: names, reasons, defaults, remarks. */
export function translateResult(): LaterPart['results'] {
  return laterPart().results;
}

/** The sentences of the comparing screens. */
export function translateCompare(): LaterPart['compare'] {
  return laterPart().compare;
}

/** The sentences of the screens that import data. */
export function translateImport(): LaterPart['imports'] {
  return laterPart().imports;
}

/** The sentences of the screens about boards and probes. */
export function translateProbes(): LaterPart['probes'] {
  return laterPart().probes;
}

/** The sentences about simulated boards, practice and sample burns. */
export function translateTryOut(): LaterPart['tryOut'] {
  return laterPart().tryOut;
}

/** The sentences about publishing. */
export function translatePublish(): LaterPart['publish'] {
  return laterPart().publish;
}

/** The sentences about long work. */
export function translateWork(): LaterPart['work'] {
  return laterPart().work;
}

/** The sentences about the settings of this device. */
export function translateSettings(): LaterPart['settings'] {
  return laterPart().settings;
}

/** The sentences about a pot that is left to cool. */
export function translateCooling(): LaterPart['cooling'] {
  return laterPart().cooling;
}

/** The sentences of the check of a board. */
export function translateBoardCheck(): LaterPart['boardCheck'] {
  return laterPart().boardCheck;
}

/** The sentence of a finding of a board check, and what to do. */
export function translateFinding({ code, params }: Message): { sentence: string; help?: string } {
  const words = (later.value?.catalogue.findings as Readonly<Record<string, FindingWords>>)?.[code];
  if (!words) return { sentence: code };
  return { sentence: words.sentence(params), ...(words.help && { help: words.help(params) }) };
}

/** The sentence for the code of a remark on a comparison. */
export function translateRemark({ code, params }: Message): string {
  const sentences: Readonly<Record<string, Sentence>> = later.value?.catalogue.comparison ?? {};
  return sentences[code]?.(params) ?? code;
}

import type { Language } from './language.ts';

const burnWord: Record<Language, string> = { en: 'burn', fr: 'essai' };

/**
 * Title of a burn that was given none, as in "Heron 2 · burn 7".
 * @param revision the revision's name, see `revisionName`
 * @param number which burn of that revision it is, from 1
 */
export function burnTitle(language: Language, revision: string, number: number): string {
  return `${revision} · ${burnWord[language]} ${number}`;
}

import type { Language } from './language.ts';

const burnWord: Record<Language, string> = { en: 'burn', fr: 'essai' };

/**
 * Returns the title of a burn without one of its own, such as "Heron 2 · burn 7".
 * @param revision the revision's name, see `revisionName`
 * @param number number of the burn within that revision, from 1
 */
export function burnTitle(language: Language, revision: string, number: number): string {
  return `${revision} · ${burnWord[language]} ${number}`;
}

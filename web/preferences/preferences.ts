/** Preferences of this device, stored in localStorage: language, day or night, units, the person at the stove. */
import { type Signal, signal } from '@preact/signals';
import type { UnitSystem } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { languageFrom } from '../../shared/language/language.ts';

export type Theme = 'system' | 'day' | 'night';

export const language = remembered<Language>('language', languageFrom(navigator.languages.join(',')));
export const theme = remembered<Theme>('theme', 'system');
export const units = remembered<UnitSystem>('units', 'si');
export const sound = remembered<'on' | 'off'>('sound', 'on');
/** Mass of the empty bucket in which wood and char are weighed, kg, as text; empty until typed. */
export const bucketKg = remembered<string>('bucketKg', '');
export const person = remembered<string>('person', '');

/** A preference of this device that outlasts the page. */
export function remembered<T extends string>(key: string, initial: T): Signal<T> {
  const name = `stovebench.${key}`;
  const stored = signal<T>(initial);
  try {
    stored.value = (localStorage.getItem(name) as T | null) ?? initial;
    stored.subscribe((value) => localStorage.setItem(name, value));
  } catch {
    // Storage is forbidden in some private windows: the preference then lasts as long as the page.
  }
  return stored;
}

/** Set language and theme on the document, where styles, hyphenation and screen readers read them. */
export function applyPreferences(): void {
  language.subscribe((value) => {
    document.documentElement.lang = value;
  });
  theme.subscribe((value) => {
    if (value === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = value;
    paintBars();
  });
}

/**
 * Gives the system's bars around the page its background colour, also where the page has another theme than the device.
 */
function paintBars(): void {
  for (const bar of document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]')) {
    bar.dataset.usual ??= bar.content;
    const isChosen = document.documentElement.dataset.theme !== undefined;
    const background = getComputedStyle(document.documentElement).getPropertyValue('--background').trim();
    bar.content = isChosen ? background : bar.dataset.usual;
  }
}

/** What this device prefers, kept in localStorage: language, day or night, units, who is at the stove. */
import { type Signal, signal } from '@preact/signals';
import type { UnitSystem } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { languageFrom } from '../../shared/language/language.ts';

export type Theme = 'system' | 'day' | 'night';

export const language = remembered<Language>('language', languageFrom(navigator.languages.join(',')));
export const theme = remembered<Theme>('theme', 'system');
export const units = remembered<UnitSystem>('units', 'si');
export const sound = remembered<'on' | 'off'>('sound', 'on');
/** Mass of the empty bucket that wood and char are weighed in, kg, as text; empty until somebody types it. */
export const bucketKg = remembered<string>('bucketKg', '');
export const person = remembered<string>('person', '');

/** A choice of this device that lasts beyond the page. */
export function remembered<T extends string>(key: string, initial: T): Signal<T> {
  const name = `stovebench.${key}`;
  const stored = signal<T>(initial);
  try {
    stored.value = (localStorage.getItem(name) as T | null) ?? initial;
    stored.subscribe((value) => localStorage.setItem(name, value));
  } catch {
    // Storage is forbidden in some private windows: the choice then lasts as long as the page.
  }
  return stored;
}

/** Put language and theme on the document, where styles, hyphenation and screen readers look for them. */
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

/** The bars of the system around the page take its paper, also where the page follows another theme than the device. */
function paintBars(): void {
  for (const bar of document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]')) {
    bar.dataset.usual ??= bar.content;
    const isChosen = document.documentElement.dataset.theme !== undefined;
    const background = getComputedStyle(document.documentElement).getPropertyValue('--background').trim();
    bar.content = isChosen ? background : bar.dataset.usual;
  }
}

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { guidePictures } from '../../scripts/guide/pictures.ts';
import { languages } from '../../shared/language/language.ts';

const folder = join(import.meta.dirname, '../../firmware-protocol/guide');
const guide = (language: string) => readFileSync(join(folder, `guide.${language}.md`), 'utf8');

test('The pictures of the build guide are those made from the configuration headers', () => {
  for (const [name, svg] of guidePictures()) expect(readFileSync(join(folder, name), 'utf8'), name).toBe(svg);
});

test('All languages of the build guide have the same parts, steps and pictures, and use every picture', () => {
  const shape = (text: string) => text.split('\n').flatMap((line) => /^(#+ |\d+\. |- |\| )/.exec(line)?.[1] ?? []);
  for (const language of languages) {
    expect(shape(guide(language)), language).toEqual(shape(guide('en')));
    const shown = [...guide(language).matchAll(/\]\(([^)]+\.svg)\)/g)].map(([, name]) => name);
    expect(shown.sort()).toEqual([...guidePictures().keys()].sort());
  }
});

test('The French guide has no-break spaces between signs or figures and their words', () => {
  // Where a line may break between them, a screen of 390 pixels does.
  expect(guide('fr').match(/[^\s|] [;:?!]|\d (?:V|K|°C|mm|cm|MHz|nF|kΩ|hPa)\b|\d \d{3}\b/g)).toBeNull();
});

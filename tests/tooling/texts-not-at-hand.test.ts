import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const root = new URL('../../', import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root), 'utf8');

it('the page of texts that were not at hand lists every file with something from memory, and no other', () => {
  const files = ['shared', 'server'].flatMap((folder) =>
    readdirSync(new URL(folder, root), { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.ts'))
      .map((path) => `${folder}/${path}`),
  );
  // A comment may be wrapped within the words. The catalogues of reports only quote the declarations.
  const isFromMemory = (path: string) => /from(\s|\*|\/\/)+memory/.test(read(path));
  const fromMemory = files.filter((path) => !path.startsWith('shared/language/') && isFromMemory(path));
  const page = read('shared/analysis/texts-not-at-hand.md');
  const named = [...new Set([...page.matchAll(/`((?:shared|server)\/[^`]+\.ts)`/g)].map(([, path]) => path))];
  expect(named.sort()).toEqual(fromMemory.sort());
});

it('no report contains "from memory"', () => {
  for (const language of ['en', 'fr']) {
    const catalogue = read(`shared/language/results/workings.${language}.ts`);
    const texts = [...catalogue.matchAll(/:\s*['"]([^\n]*)['"],\n/g)].map(([, text]) => text);
    expect(texts.length).toBeGreaterThan(4);
    for (const text of texts) expect(text).not.toMatch(/from memory|de mémoire/);
  }
});

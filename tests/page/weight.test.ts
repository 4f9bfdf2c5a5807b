import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { ensurePageBuilt } from '../../scripts/build/page.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const folder = join(repositoryRoot, 'dist', 'web');
const read = (path: string) => readFileSync(join(folder, path), 'utf8');

/** Scripts a script cannot start without. */
function staticImports(path: string): string[] {
  return [...read(path).matchAll(/(?:from|import)\s*["'](\.\/[^"']+)["']/g)].map(([, found]) =>
    join('assets', found ?? ''),
  );
}

/** What the browser has to fetch before the first screen stands, in the heavier of the two languages. */
function firstLoad(): string[] {
  const html = read('index.html');
  const waiting = [...html.matchAll(/(?:src|href)="\.?\/(assets\/[^"]+\.(?:js|css))"/g)].map(([, path]) => path ?? '');
  const languages = readdirSync(join(folder, 'assets')).filter((name) => /^page\.(en|fr)-.*\.js$/.test(name));
  expect(languages.length).toBe(2);
  const [heavier = ''] = languages.map((name) => join('assets', name)).sort((a, b) => read(b).length - read(a).length);
  waiting.push(heavier);
  const found = new Set<string>();
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (found.has(path)) continue;
    found.add(path);
    if (path.endsWith('.js')) waiting.push(...staticImports(path));
  }
  return [...found];
}

test('the first screen costs at most 120 kB of compressed script and style', async () => {
  await ensurePageBuilt(() => undefined);
  const paths = firstLoad();
  expect(paths.some((path) => path.endsWith('.css'))).toBe(true);
  const weight = paths.reduce((sum, path) => sum + gzipSync(readFileSync(join(folder, path))).length, 0);
  // A weight that is too small would mean that this test has lost sight of the charts.
  expect(weight).toBeGreaterThan(60_000);
  expect(weight).toBeLessThanOrEqual(120_000);
});

test('nothing in the built page names an address on another machine', async () => {
  await ensurePageBuilt(() => undefined);
  for (const path of ['index.html', ...firstLoad()]) {
    const addresses = [...read(path).matchAll(/https?:\/\/[\w.-]+/g)].map(([address]) => address);
    // The names of SVG and XHTML are identifiers, not places to fetch from.
    expect(addresses.filter((address) => !/^http:\/\/www\.w3\.org/.test(address))).toEqual([]);
  }
});

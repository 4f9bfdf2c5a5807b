import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { languages } from '../../shared/language/language.ts';

/**
 * Scripts and styles of the built page that the browser has to fetch before the first screen is shown, for the largest
 * of the languages; paths inside `folder`.
 * @throws when `folder` contains no built page
 */
export function firstLoad(folder: string): string[] {
  const read = (path: string) => readFileSync(join(folder, path), 'utf8');
  const waiting = [...read('index.html').matchAll(/(?:src|href)="\.?\/(assets\/[^"]+\.(?:js|css))"/g)].map(
    ([, path]) => path ?? '',
  );
  const catalogues = readdirSync(join(folder, 'assets'))
    .filter((name) => /^first-part\..*\.js$/.test(name))
    .map((name) => join('assets', name));
  if (catalogues.length !== languages.length)
    throw new Error(`${languages.length} languages are expected in ${folder}, not ${catalogues.length}`);
  waiting.push(catalogues.sort((a, b) => read(b).length - read(a).length)[0]!);
  const found = new Set<string>();
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (found.has(path)) continue;
    found.add(path);
    if (path.endsWith('.js')) waiting.push(...staticImports(read(path)));
  }
  return [...found];
}

/** Bytes of the first load after gzip, each file compressed separately as it is sent. */
export function firstLoadGzipBytes(folder: string): number {
  return firstLoad(folder).reduce((sum, path) => sum + gzipSync(readFileSync(join(folder, path))).length, 0);
}

/** Scripts that a script imports statically. */
function staticImports(script: string): string[] {
  return [...script.matchAll(/(?:from|import)\s*["'](\.\/[^"']+)["']/g)].map(([, found]) =>
    join('assets', found ?? ''),
  );
}

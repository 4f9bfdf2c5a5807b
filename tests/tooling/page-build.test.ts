import { globSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ensurePageBuilt } from '../../scripts/build/page.ts';
import { temporaryProject } from '../support/temporary-folder.ts';

const sources = {
  'web/index.html': '<!doctype html><div id="bench"></div><script type="module" src="./main.tsx"></script>',
  'web/main.tsx':
    "import { render } from 'preact';\nimport { loadKg } from '../shared/load.ts';\n" +
    "render(<b>{loadKg}</b>, document.getElementById('bench')!);\n",
  'web/shell-worker.ts': 'declare const SHELL: { version: string };\nconsole.log(SHELL.version);\n',
  'shared/load.ts': 'export const loadKg = 22.5;\n',
  'web/guide.en.html': '<!doctype html><!-- other languages --><!-- guide.en.md -->',
  'web/guide.fr.html': '<!doctype html><!-- guide.fr.md -->',
  'firmware-protocol/guide/guide.en.md': '# Build a board\n\n![Wiring](wiring.svg)\n',
  'firmware-protocol/guide/guide.fr.md': '# Construire une carte\n',
  'firmware-protocol/guide/wiring.svg': '<svg xmlns="http://www.w3.org/2000/svg"><title>Wiring</title></svg>\n',
};

const parts = [
  'web/vite.config.ts',
  'web/tsconfig.json',
  'web/public/icon.svg',
  'shared/language/language.ts',
  'tsconfig.json',
];

test('the page is built once, again when one of its sources changes, and never partially', async () => {
  const root = temporaryProject(parts, sources);
  const reported: string[] = [];
  const build = () => ensurePageBuilt((line) => reported.push(line), root);
  const script = () => {
    const [file] = globSync('dist/web/assets/*.js', { cwd: root });
    return readFileSync(join(root, file!), 'utf8');
  };

  await build();
  expect(script()).toContain('22.5');
  // What a debugging build writes into every element.
  expect(script()).not.toContain('lineNumber');
  const guide = readFileSync(join(root, 'dist/web/guide.en.html'), 'utf8');
  expect(guide).toMatch(/<h1>Build a board<\/h1>\s*<p[^>]*><img src="\/assets\/wiring-[^"]+\.svg" alt="Wiring">/);
  expect(guide.match(/<a [^>]*>/g)).toEqual(['<a href="/guide.fr.html" lang="fr">']);
  const worker = () => readFileSync(join(root, 'dist/web/shell-worker.js'), 'utf8');
  const first = worker();
  await build();
  expect(reported).toHaveLength(1);
  expect(worker()).toBe(first);

  writeFileSync(join(root, 'shared/load.ts'), 'export const loadKg = 31.5;\n');
  await build();
  expect(reported).toHaveLength(2);
  expect(script()).toContain('31.5');
  expect(worker()).not.toBe(first);

  rmSync(join(root, 'shared/load.ts'));
  await expect(build()).rejects.toThrow('the page could not be built');
  await expect(build()).rejects.toThrow('the page could not be built');
});

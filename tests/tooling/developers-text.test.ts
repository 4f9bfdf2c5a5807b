import { expect, test } from 'vitest';
import { foldersDescribedCheck } from '../../scripts/check/folders-described.ts';
import { glossaryCheck } from '../../scripts/check/glossary.ts';
import { pathsExistCheck } from '../../scripts/check/paths-exist.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const project = (text: string) => ({ 'DEVELOPERS.md': text, 'server/store/scans.ts': '', 'web/main.tsx': '' });

test('a path that does not exist is refused with its line, whether it is short, old or that of a folder', async () => {
  const root = temporaryFolder(
    project('See `server/store/scans.ts`.\n\nThen `store/scans.ts`, `server/shelf/`\nand `web/lib`, not `web/*.ts`.\n'),
  );
  expect(await pathsExistCheck.run(root)).toEqual({
    passed: false,
    report: 'DEVELOPERS.md names what does not exist:\n3: store/scans.ts\n3: server/shelf/\n4: web/lib\n4: web/*.ts',
  });
});

test('addresses, packages, commands, generated files and code between fences are not paths', async () => {
  const text = [
    'Of `server/store/`, `web/*.tsx` and `web`, `GET /api/burns`, `/api/pairing`, `@fastify/static`,',
    '`npm test -- tests/none`, `node_modules/.package-lock.json`, `dist/web`, `kg/h`.',
    '```diff',
    ' `web/new.ts`',
    '```',
  ];
  expect(await pathsExistCheck.run(temporaryFolder(project(text.join('\n'))))).toEqual({ passed: true });
});

test('a folder of code without its sentence is refused, and a sentence without its folder', async () => {
  const described = '| `server/store/` | scans |\n| `web/` | the page |\n';
  expect(await foldersDescribedCheck.run(temporaryFolder(project(described)))).toEqual({ passed: true });
  const root = temporaryFolder(project('| `web/` | the page |\n| `web/lib/` | requests |\n'));
  expect(await foldersDescribedCheck.run(root)).toEqual({
    passed: false,
    report: 'DEVELOPERS.md, table of folders:\nno code in web/lib/\nno sentence for server/store/',
  });
});

const glossary = [
  '## Glossary',
  '| term | meaning | source | French | not in names |',
  '| --- | --- | --- | --- | --- |',
  '| inventory | stoves and pots | | inventaire | shelf, shelves |',
  '| time chart, track | curves | | courbe | strip |',
  '| burn | one test | | essai | |',
  '',
  'Published: `shelf`.',
  '',
  '## Commands',
  '| `npm test` | strip |',
].join('\n');

test('a word that the glossary replaces is refused in names of files, variables, types, members and parameters', async () => {
  const root = temporaryFolder({
    'DEVELOPERS.md': glossary,
    'shared/strip-model.ts': '',
    'web/views/list.tsx':
      'export const Shelves = ({ topStrip: inner }: { topStrip: string }) => <b class="strip">{inner}</b>;\n',
    'server/a.ts': 'interface A { readonly strip_px: number; shelvesOf(stripKg: number): void }\n',
  });
  expect(await glossaryCheck.run(root)).toEqual({
    passed: false,
    report: [
      'server/a.ts: shelvesOf (not shelves, but inventory)',
      'server/a.ts: stripKg (not strip, but time chart, track)',
      'server/a.ts: strip_px (not strip, but time chart, track)',
      'shared/strip-model.ts: strip-model.ts (not strip, but time chart, track)',
      'web/views/list.tsx: Shelves (not shelves, but inventory)',
      'web/views/list.tsx: topStrip (not strip, but time chart, track)',
    ].join('\n'),
  });
});

test('comments, texts, uses of declarations elsewhere and published names pass, and a project without a glossary does not', async () => {
  const code = {
    'server/a.ts':
      "// The strip of the shelf.\nexport const shelf = 'strip';\nexport const at = globalThis.document?.strip;\n",
  };
  expect(await glossaryCheck.run(temporaryFolder({ 'DEVELOPERS.md': glossary, ...code }))).toEqual({ passed: true });
  const finding = await glossaryCheck.run(temporaryFolder({ 'DEVELOPERS.md': '# Nothing', ...code }));
  expect(finding.passed).toBe(false);
});

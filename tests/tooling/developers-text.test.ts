import { expect, test } from 'vitest';
import { foldersDescribedCheck } from '../../scripts/check/folders-described.ts';
import { pathsExistCheck } from '../../scripts/check/paths-exist.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const project = (text: string) => ({ 'DEVELOPERS.md': text, 'server/store/scans.ts': '', 'web/main.tsx': '' });

test('a path that leads nowhere is refused with its line, whether it is short, old or that of a folder', async () => {
  const root = temporaryFolder(
    project('See `server/store/scans.ts`.\n\nThen `store/scans.ts`, `server/shelf/`\nand `web/lib`, not `web/*.ts`.\n'),
  );
  expect(await pathsExistCheck.run(root)).toEqual({
    passed: false,
    report: 'DEVELOPERS.md names what does not exist:\n3: store/scans.ts\n3: server/shelf/\n4: web/lib\n4: web/*.ts',
  });
});

test('addresses, packages, commands, what tools make and code between fences are no paths', async () => {
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

import { existsSync, globSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { errors } from '../../shared/language/errors/errors.ts';
import { issueSentences } from '../../shared/language/errors/issue-sentences.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const troubleshooting = readFileSync(join(repositoryRoot, 'shared/language/errors/README.md'), 'utf8');

/** The codes that the page explains: the first cell of a table row, or named with a field. */
const explained = [
  ...[...troubleshooting.matchAll(/^\| `([^`]+)` \|/gm)].map(([, code]) => code),
  ...[...troubleshooting.matchAll(/`(issue\/[^`]+)`/g)].map(([, code]) => code),
];

test('the troubleshooting page explains every code of a message once, and no other', () => {
  expect(explained.toSorted()).toEqual(Object.keys({ ...errors, ...issueSentences }).toSorted());
});

/** The anchors of the headings of a document, as sites that render it make them. */
const anchorsOf = (text: string) =>
  [...text.matchAll(/^#+ (.+)$/gm)].map(([, heading = '']) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\d -]/gu, '')
      .replaceAll(' ', '-'),
  );

test('links inside the documents lead to an existing heading or file', () => {
  const pages = globSync('{*,{server,shared,web,firmware-protocol}/**/*}.md', { cwd: repositoryRoot });
  expect(pages).toEqual(expect.arrayContaining(['README.md', 'DEVELOPERS.md', 'shared/language/errors/README.md']));
  for (const name of pages) {
    const text = readFileSync(join(repositoryRoot, name), 'utf8');
    const links = [...text.matchAll(/\]\((?!https?:)([^)]+)\)/g), ...text.matchAll(/(?:src|srcset)="([^"]+)"/g)];
    for (const [, target = ''] of links) {
      const [path = '', anchor] = target.split('#');
      const file = path === '' ? join(repositoryRoot, name) : join(repositoryRoot, dirname(name), path);
      expect(existsSync(file), `${name} links to ${target}`).toBe(true);
      if (anchor !== undefined)
        expect(anchorsOf(readFileSync(file, 'utf8')), `${name} links to ${target}`).toContain(anchor);
    }
  }
});

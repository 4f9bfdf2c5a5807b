import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { errors } from '../../shared/language/errors/errors.ts';
import { issueSentences } from '../../shared/language/errors/issue-sentences.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const readme = readFileSync(join(repositoryRoot, 'README.md'), 'utf8');
const [, section = ''] = readme.split('## When it goes wrong');
const [troubleshooting = ''] = section.split('\n## ');

/** The codes that the section explains: the first cell of a table row, or named beside a field. */
const explained = [
  ...[...troubleshooting.matchAll(/^\| `([^`]+)` \|/gm)].map(([, code]) => code),
  ...[...troubleshooting.matchAll(/`(issue\/[^`]+)`/g)].map(([, code]) => code),
];

test('the troubleshooting section explains every code that a message can carry, once, and no other', () => {
  expect(explained.toSorted()).toEqual(Object.keys({ ...errors, ...issueSentences }).toSorted());
});

test('links inside the documents lead to a heading or a file that is there', () => {
  for (const name of ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md']) {
    const text = readFileSync(join(repositoryRoot, name), 'utf8');
    const anchors = [...text.matchAll(/^#+ (.+)$/gm)].map(([, heading = '']) =>
      heading
        .toLowerCase()
        .replace(/[^\p{L}\d -]/gu, '')
        .replaceAll(' ', '-'),
    );
    for (const [, target = ''] of text.matchAll(/\]\((?!https?:)([^)]+)\)/g)) {
      if (target.startsWith('#')) expect(anchors, `${name} links to ${target}`).toContain(target.slice(1));
      else expect(existsSync(join(repositoryRoot, target)), `${name} links to ${target}`).toBe(true);
    }
  }
});

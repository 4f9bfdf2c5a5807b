import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { findingCodes } from '../../shared/contract/board-check.ts';
import { findingsEn } from '../../shared/language/board-check/board-check.en.ts';
import { findingsFr } from '../../shared/language/board-check/board-check.fr.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const page = readFileSync(join(repositoryRoot, 'firmware-protocol/board-check.md'), 'utf8');
const rows = [...page.matchAll(/^\| `([^`]+)` \| (.+?) \| (.+?) \|$/gm)].map(([, code, sentence, todo]) => ({
  code,
  sentence,
  todo,
}));

test('the page of the board check has a row for every finding, once, and for no other', () => {
  expect(rows.map(({ code }) => code).toSorted()).toEqual([...findingCodes].toSorted());
});

/** Placeholders of the page for figures and names of one board. */
const sample = {
  line: '…',
  count: 3,
  field: 'the field',
  found: 'X',
  expected: 'Y',
  number: 2,
  label: 'Pot low',
  path: 'PORT',
  baudRate: 115200,
};

test('the advice in the page has the words of the screen and the command line', () => {
  const differing = rows.flatMap(({ code, todo }) => {
    const { help } = findingsEn[code as keyof typeof findingsEn];
    const words = help?.({ ...sample, offK: -1, allowedK: 2.5, named: 'hPa', other: 'Flue', otherNumber: 1 });
    return (words?.replaceAll('\u00a0', ' ').replaceAll('|', '\\|') ?? 'nothing: all is well') === todo ? [] : code;
  });
  expect(differing).toEqual([]);
});

test.each([
  ['en', findingsEn],
  ['fr', findingsFr],
])('lines, channels and boards have whole sentences in %s', (_, words) => {
  const figures = {
    columns: 3,
    ratio: 0.001,
    measuredMs: 1000,
    statedMs: 500,
    jitterMs: 120,
    seconds: 60,
    sequence: 40,
    depth: 64,
  };
  const codes = findingCodes.filter((code) => !code.startsWith('probe/'));
  const unfinished = codes.filter((code) => {
    const { sentence, help } = words[code];
    const text = `${sentence({ ...sample, ...figures })} ${help?.({ ...sample, ...figures })}`;
    return /NaN|undefined(?!$)/.test(text) || text.length < 20;
  });
  expect(unfinished).toEqual([]);
});

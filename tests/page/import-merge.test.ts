import { expect } from 'vitest';
import { byMethods } from '../../shared/analysis/by-methods.ts';
import { type BurnRecord, methodSets } from '../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { stovebench } from '../command-line/run-command.ts';
import { test } from '../support/browser.ts';
import { type BenchWithPage, benchWithHeron, startBurn } from './bench-with-page.ts';
import { chooseFile, expectSound } from './import-files.ts';
import { patiently } from './patiently.ts';

const recordOf = (bench: BenchWithPage, id: string) => bench.ask<BurnRecord>('GET', `/burns/${id}/record`);

const burnCount = async (bench: BenchWithPage) => (await bench.ask<{ burns: unknown[] }>('GET', '/burns')).burns.length;

test('two copies of one burn are shown side by side, and the chosen version of each item is stored', async ({
  openPage,
}) => {
  const { bench, records } = await benchWithHeron([4]);
  const [stored] = records;
  const mine = await recordOf(bench, stored?.id ?? '');
  const theirs = structuredClone(mine);
  const fed = theirs.marks.find((mark) => mark.kind === 'fed');
  const before = fed?.massKg ?? 0;
  if (fed) fed.massKg = 1.234;
  if (theirs.stove) theirs.stove.name = 'Heron (barn)';
  theirs.weatherNote = 'gusts';
  theirs.title = 'Heron 2, copy';
  const file = JSON.stringify(theirs);

  const page = await openPage(`${bench.url}#/bring-in`);
  await chooseFile(page, 'theirs.json', file);
  const stove = page.locator('.difference', { has: page.getByRole('heading', { name: 'Stove:' }) });
  const burn = page.locator('.difference', { has: page.getByRole('heading', { name: 'Burn:' }) });
  const mark = page.locator('.difference', { has: page.getByRole('heading', { name: 'Mark: fed, minute' }) });
  await stove.waitFor();
  expect(await page.locator('.difference').count()).toBe(3);
  expect(await stove.getByRole('row', { name: 'name' }).getByRole('cell').allTextContents()).toEqual([
    mine.stove?.name,
    'Heron (barn)',
  ]);
  expect(await mark.getByRole('row', { name: 'mass' }).getByRole('cell').allTextContents()).toEqual([
    `${before.toFixed(3)}\u00a0kg`,
    '1.234\u00a0kg',
  ]);
  expect(await burn.getByRole('rowheader').allTextContents()).toEqual(['title', 'weather']);

  await stove.getByRole('radio', { name: 'Take theirs' }).check();
  await mark.getByRole('radio', { name: 'Keep mine' }).check();
  await page.getByRole('button', { name: 'Import', exact: true }).click();
  await page.getByText('One choice is still to be made.').waitFor();
  await patiently(() =>
    burn.getByRole('radio', { name: 'Keep mine' }).evaluate((e) => e === document.activeElement),
  ).toBe(true);
  await expectSound(page, 'two copies');
  expect(await recordOf(bench, mine.id)).toEqual(mine);

  await page.reload();
  await burn.waitFor();
  expect(await stove.getByRole('radio', { name: 'Take theirs' }).isChecked()).toBe(true);
  await burn.getByRole('radio', { name: 'Take theirs' }).check();
  await page.getByRole('button', { name: 'Import', exact: true }).click();
  await page.getByText('Changed: 1 stove, 1 burn.').waitFor();
  const now = await recordOf(bench, mine.id);
  expect([now.title, now.weatherNote, now.stove?.name]).toEqual(['Heron 2, copy', 'gusts', 'Heron (barn)']);
  expect(now.marks.find(({ id }) => id === fed?.id)).toMatchObject({ massKg: before });
  expect(now.readings).toEqual(mine.readings);

  // Importing the present data once more changes nothing.
  await page.getByRole('button', { name: 'Import something else' }).click();
  await chooseFile(page, 'again.json', JSON.stringify(now));
  await page.getByText('All of it is here already, and the same.').waitFor();
  expect(await page.getByRole('button', { name: 'Import', exact: true }).count()).toBe(0);
  await expectSound(page, 'nothing new');
  await page.getByRole('button', { name: 'Choose another file' }).click();
  await page.getByRole('button', { name: 'Look at these notes' }).waitFor();
  expect([await burnCount(bench), await recordOf(bench, mine.id)]).toEqual([1, now]);
});

test('while a burn is live its own record is refused, and a backup from the settings contains it and is verified', async ({
  openPage,
}) => {
  const { bench } = await benchWithHeron([4]);
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const page = await openPage(`${bench.url}#/bring-in`, {
    width: 390,
    language: 'fr',
    expectedErrors: [/status of 409/],
  });
  await chooseFile(page, 'live.json', JSON.stringify(await recordOf(bench, burn.id)));
  await page.locator('.trouble .problem').getByText('Heron 2, live').waitFor();
  await expectSound(page, 'a burn that is live');
  expect((await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).burn).toMatchObject({ status: 'running' });

  await page.getByRole('link', { name: 'Options' }).tap();
  await page.getByRole('button', { name: 'Sauvegarder maintenant' }).tap();
  await page.getByText('2 essais').waitFor();
  await expectSound(page, 'backed up');
  const folder = (await page.locator('.back-up code').textContent()) ?? '';
  const proof = await stovebench(['verify', folder]);
  expect([proof.code, proof.answer.ok, proof.answer.database]).toEqual([0, true, []]);
  expect(proof.answer.burns.map(({ results }: { results: string }) => results).sort()).toEqual(['running', 'same']);
  expect((await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).burn.status).toBe('running');
});

test('a burn shows its results by every method, and their spread', async ({ openPage }) => {
  const { bench, records } = await benchWithHeron([4]);
  const [stored] = records;
  const page = await openPage(`${bench.url}#/burns/${stored?.id}`);
  await page.getByText('The same burn by every method').click();
  const rows = page.locator('.every-method tbody tr');
  await rows.first().waitFor();
  const analyses = await Promise.all(
    methodSets.map((method) => bench.ask<Analysis>('GET', `/burns/${stored?.id}/results?method=${method}`)),
  );
  const expected = byMethods(analyses);
  expect(await rows.count()).toBe(expected.length);
  for (const [index, { cells, spread }] of expected.entries()) {
    const [difference = '', ...shown] = await rows.nth(index).getByRole('cell').allTextContents();
    expect(difference).toBe(spread ? `${Math.round(spread.share * 100)}\u00a0%` : '');
    expect(shown.length).toBe(cells.length);
    for (const [at, cell] of cells.entries()) {
      // The first number of the cell, in the unit of the cell.
      const figure = Number(/[\d.]+/.exec(shown[at] ?? '')?.[0]);
      const scale = { s: 60, W: 1000, '1': 0.01, 'kg/s': 1 / 3600 }[cell?.unit ?? ''] ?? 1;
      if (!cell) expect(shown[at]).toBe('–');
      else expect(Math.abs(figure * scale - cell.value) / cell.value).toBeLessThan(0.02);
    }
  }
  await expectSound(page, 'every method');
});

import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { benchWithPage, fillInventory } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

test('the list is narrowed by stove, revision and wood, says when nothing fits, and shows all again', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { revision, wood } = await fillInventory(bench);
  const made = async (path: string, thing: object) => (await bench.ask<{ id: string }>('POST', path, thing)).id;
  const oak = await made('/fuel-lots', { name: 'Oak', kind: 'wood' });
  const plover = await made('/stoves', { name: 'Plover' });
  const first = await made('/revisions', { stoveId: plover, label: '1' });
  for (const [title, revisionId, fuelLotIds] of [
    ['Heron on beech', revision, [wood]],
    ['Heron on both', revision, [wood, oak]],
    ['Plover on oak', first, [oak]],
    ['nothing said', undefined, []],
  ] as const)
    await bench.ask('POST', '/burns', {
      title,
      fuelLotIds,
      target: { kind: 'boil' },
      ...(revisionId && { revisionId }),
    });

  const page = await openPage(`${bench.url}#/burns`, { width: 390 });
  const titles = async () => (await page.locator('.burn-title').allTextContents()).sort();
  await patiently(titles).toEqual(['Heron on beech', 'Heron on both', 'Plover on oak', 'nothing said']);
  await page.getByLabel('Wood', { exact: true }).selectOption({ label: 'Oak' });
  await patiently(titles).toEqual(['Heron on both', 'Plover on oak']);
  await page.getByLabel('Stove', { exact: true }).selectOption({ label: 'Heron' });
  await patiently(titles).toEqual(['Heron on both']);

  // The choice is still there after a look at a burn.
  await page.locator('.burn-link').tap();
  await page.getByRole('heading', { name: 'Heron on both' }).waitFor();
  await page.goBack();
  await patiently(titles).toEqual(['Heron on both']);

  await page.getByLabel('Stove', { exact: true }).selectOption({ label: 'Plover' });
  await page.getByLabel('Wood', { exact: true }).selectOption({ label: 'Beech, split' });
  await page.getByText('No burn is of this stove, revision and wood together.').waitFor();
  expect(await titles()).toEqual([]);
  await page.getByRole('button', { name: 'Show all burns' }).tap();
  await patiently(async () => (await titles()).length).toBe(4);
  await page.getByLabel('Revision', { exact: true }).selectOption({ label: '1' });
  await patiently(titles).toEqual(['Plover on oak']);
});

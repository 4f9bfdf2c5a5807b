import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { benchWithPage, fillInventory } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

test('the list is filtered by stove, revision and wood, reports no match, and shows all again', async ({
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
  await page.getByText('Filter and sort').tap();
  await page.getByLabel('Wood', { exact: true }).selectOption({ label: 'Oak' });
  await patiently(titles).toEqual(['Heron on both', 'Plover on oak']);
  await page.getByLabel('Stove', { exact: true }).selectOption({ label: 'Heron' });
  await patiently(titles).toEqual(['Heron on both']);

  // The filter is still set after a burn was opened.
  await page.locator('.burn-link').tap();
  await page.getByRole('heading', { name: 'Heron on both' }).waitFor();
  await page.goBack();
  await patiently(titles).toEqual(['Heron on both']);

  await page.getByLabel('Stove', { exact: true }).selectOption({ label: 'Plover' });
  await page.getByLabel('Wood', { exact: true }).selectOption({ label: 'Beech, split' });
  await page.getByText('No burn is all of this together.').waitFor();
  expect(await titles()).toEqual([]);
  await page.getByRole('button', { name: 'Show all burns' }).tap();
  await patiently(async () => (await titles()).length).toBe(4);
  await page.getByLabel('Revision', { exact: true }).selectOption({ label: '1' });
  await patiently(titles).toEqual(['Plover on oak']);
});

test('burns are found by words, target and status, and sorted from the oldest', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { revision } = await fillInventory(bench);
  for (const [title, more] of [
    ['Scouring', { operator: 'M' }],
    ['Mordanting', { operator: 'R', target: { kind: 'temperature', tempC: 90 } }],
    ['Rinsing', { operator: 'R', status: 'running' }],
  ] as const)
    await bench.ask('POST', '/burns', { title, revisionId: revision, ...more });

  const page = await openPage(`${bench.url}#/burns`, { width: 1280 });
  const titles = async () => (await page.locator('.burn-title').allTextContents()).join();
  await patiently(titles).toBe('Rinsing,Mordanting,Scouring');
  await page.getByLabel('Order', { exact: true }).selectOption({ label: 'oldest first' });
  await patiently(titles).toBe('Scouring,Mordanting,Rinsing');
  await page.getByLabel('Search', { exact: true }).fill('r heron');
  await patiently(titles).toBe('Scouring,Mordanting,Rinsing');
  await page.getByLabel('Search', { exact: true }).fill('mord heron');
  await patiently(titles).toBe('Mordanting');
  await page.getByLabel('Search', { exact: true }).fill('');
  await page.getByLabel('Target', { exact: true }).selectOption({ label: '90\u00a0°C' });
  await patiently(titles).toBe('Mordanting');
  await page.getByLabel('Target', { exact: true }).selectOption({ label: 'all' });
  await page.getByLabel('Status', { exact: true }).selectOption({ label: 'running' });
  await patiently(titles).toBe('Rinsing');
});

test('a long list renders only the rows near the screen, and all of them while scrolling', async ({ openPage }) => {
  const bench = await benchWithPage();
  const count = 150;
  await Promise.all(
    Array.from({ length: count }, (_, index) => bench.ask('POST', '/burns', { title: `Burn ${index}` })),
  );
  const page = await openPage(`${bench.url}#/burns`, { width: 1280 });
  const rows = page.locator('.burn-line');
  await rows.first().waitFor();
  expect(await rows.count()).toBeLessThan(count / 2);
  // The height of the list is right before its rows are rendered.
  const height = () => page.evaluate(() => document.documentElement.scrollHeight);
  const before = await height();
  for (let places = 0; (await rows.count()) < count && places < count; places += 1) {
    // The last placeholder may have been rendered since the count.
    await page.evaluate(() => document.querySelector('.burns.waiting')?.scrollIntoView());
    await patiently(() => page.locator('.burns.waiting').count()).toBeLessThan(count);
  }
  await patiently(() => rows.count()).toBe(count);
  expect(Math.abs((await height()) / before - 1)).toBeLessThan(0.25);
});

import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail, BurnSummary } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithPage, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/** Counts taps: one on a button, one into a field for typing, two for a choice out of a list. */
function countingThumb() {
  let taps = 0;
  return {
    taps: () => taps,
    async tap(target: Locator) {
      taps += 1;
      await target.tap();
    },
    async type(field: Locator, text: string) {
      taps += 1;
      await field.fill(text);
    },
    async choose(list: Locator, label: string) {
      taps += 2;
      await list.selectOption({ label });
    },
  };
}

async function afterABurn(openPage: (url: string, options: { width: 390 }) => Promise<Page>) {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench, { operator: 'second' });
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  const page = await openPage(bench.url, { width: 390 });
  const running = async () => {
    const { burns } = await bench.ask<{ burns: BurnSummary[] }>('GET', '/burns');
    const id = burns.find(({ status }) => status === 'running')?.id;
    return id ? bench.ask<BurnDetail>('GET', `/burns/${id}`) : undefined;
  };
  const weigh = async ({ type }: ReturnType<typeof countingThumb>) => {
    await type(page.getByLabel('Water in the pot'), '29.5');
    await type(page.getByLabel('Water temperature', { exact: true }), '14');
    await type(page.getByLabel('Wood set out'), '6.2');
  };
  return { bench, page, last: burn, running, weigh };
}

test('from the first screen to recording, with another revision only: at most ten taps, weighing included', async ({
  openPage,
}) => {
  const { bench, page, last, running, weigh } = await afterABurn(openPage);
  const { stoves } = await bench.ask<{ stoves: { id: string }[] }>('GET', '/stoves');
  await bench.ask('POST', '/revisions', { stoveId: stoves[0]?.id, label: '3', parentId: last.revisionId });
  const thumb = countingThumb();
  await thumb.tap(page.getByRole('link', { name: 'New burn' }).first());
  await thumb.choose(page.getByLabel('Stove, revision'), 'Heron 3');
  await weigh(thumb);
  await thumb.tap(page.getByRole('button', { name: 'Start recording' }));
  await page.getByRole('heading', { name: 'Heron 3 · burn 1' }).waitFor();
  expect(thumb.taps()).toBeLessThanOrEqual(10);
  const { vesselId, placeId, fuelLotIds, scaleIds, target, hold, operator } = last;
  await patiently(async () => (await running())?.weighings.length).toBe(2);
  expect((await running())?.burn).toMatchObject({ vesselId, placeId, fuelLotIds, scaleIds, target, hold, operator });
});

test('even a revision described on the spot takes at most ten taps, and is made from the last one', async ({
  openPage,
}) => {
  const { bench, page, last, running, weigh } = await afterABurn(openPage);
  const dialog = page.locator('dialog');
  const thumb = countingThumb();
  await thumb.tap(page.getByRole('link', { name: 'New burn' }).first());
  await thumb.tap(page.getByRole('button', { name: 'Add a revision' }));
  await thumb.type(dialog.getByLabel('Short name, as said aloud'), '3');
  await thumb.type(dialog.getByLabel('What was changed'), 'Riser 40 mm higher.');
  await thumb.tap(dialog.getByRole('button', { name: 'Save', exact: true }));
  await dialog.waitFor({ state: 'detached' });
  await weigh(thumb);
  await thumb.tap(page.getByRole('button', { name: 'Start recording' }));
  await page.getByRole('heading', { name: 'Heron 3 · burn 1' }).waitFor();
  expect(thumb.taps()).toBeLessThanOrEqual(10);
  const { revisions } = await bench.ask<{ revisions: { id: string; label: string }[] }>('GET', '/revisions');
  const made = revisions.find(({ label }) => label === '3');
  expect(made).toMatchObject({ parentId: last.revisionId, change: 'Riser 40 mm higher.' });
  expect((await running())?.burn.revisionId).toBe(made?.id);
});

test('a feed takes two taps in addition to its mass', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const page = await openPage(bench.url, { width: 390 });
  const thumb = countingThumb();
  await thumb.tap(page.locator('.thumb .main'));
  for (const key of ['0', '.', '6']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  await thumb.tap(page.getByRole('button', { name: /^Save 0\.60/ }));
  const fed = async () => {
    const { marks } = await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
    return marks.flatMap(({ mark }) => (mark.kind === 'fed' ? [mark.massKg] : []));
  };
  await patiently(fed).toEqual([0.6]);
  expect(thumb.taps()).toBe(2);
});

import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, fillInventory, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { missed } from './reachable.ts';

/** The viewport of a small phone between the bars of its browser, in portrait and landscape. */
const smallest = [
  [360, 600],
  [844, 390],
] as const;
const others = [
  [390, 664],
  [375, 667],
  [360, 640],
] as const;
const timeScale = 20;

const sheet = (page: Page) => page.locator('dialog.sheet');

/** Returns the targets that cannot be tapped, at each size of screen. */
async function missedAt(page: Page, sizes: readonly (readonly [number, number])[], scrolls: boolean) {
  const all: string[] = [];
  for (const [width, height] of sizes) {
    await page.setViewportSize({ width, height });
    for (const name of await missed(sheet(page), scrolls)) all.push(`${width}×${height}: ${name}`);
    if ((await overflow(page)) > 0) all.push(`${width}×${height} is too narrow`);
  }
  return all;
}

async function speak(page: Page, language: 'en' | 'fr'): Promise<void> {
  await page.evaluate((chosen) => localStorage.setItem('stovebench.language', chosen), language);
  await page.reload();
  await sheet(page).waitFor();
}

test('on small phones no key or button of a sheet at the stove is covered, in portrait or landscape', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale, { waterStartC: 25 });
  for (const name of ['pot', 'spare'])
    await bench.ask('POST', '/hand-probes', {
      name,
      role: 'water',
      unit: 'Cel',
      probe: { kind: 'dial' },
      standardUncertainty: 1,
    });
  // The water is warmer than that before any heating: an alarm is active from lighting.
  const { burn } = await startBurn(bench, { target: { kind: 'temperature', tempC: 20 }, hold: undefined });
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  for (const massKg of [0.82, 0.96, 1.04]) await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg });
  const page = await openPage(bench.url, { width: 390 });
  const keys = [...smallest, ...others];

  await page.locator('.thumb .main').tap();
  const call = sheet(page).getByText('The target is reached.');
  await call.waitFor();
  expect(await missedAt(page, keys, false)).toEqual([]);
  await sheet(page).getByRole('button', { name: 'Seen' }).tap();
  await call.waitFor({ state: 'detached' });
  expect(await missedAt(page, keys, false)).toEqual([]);
  await page.setViewportSize({ width: 360, height: 600 });
  for (const key of ['0', '.', '4', '0']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  expect(await page.locator('.feed-mass').textContent()).toBe('0.40 kg');
  await speak(page, 'fr');
  expect(await missedAt(page, [...keys, [320, 600]], false)).toEqual([]);
  await speak(page, 'en');
  await sheet(page).getByRole('button', { name: 'Close' }).tap();

  await page.setViewportSize({ width: 360, height: 600 });
  await page
    .locator('.thumb')
    .getByRole('button', { name: /^Reading/ })
    .tap();
  expect(await missedAt(page, keys, false)).toEqual([]);
  await page.getByRole('radio', { name: 'at…' }).check();
  expect(await missedAt(page, smallest, true)).toEqual([]);
  await speak(page, 'fr');
  expect(await missedAt(page, [[320, 600]], true)).toEqual([]);
  await speak(page, 'en');
  await sheet(page).getByRole('button', { name: 'Close' }).tap();

  await page.setViewportSize({ width: 360, height: 600 });
  await page.getByRole('button', { name: 'Other…' }).tap();
  expect(await missedAt(page, smallest, true)).toEqual([]);
  await page.setViewportSize({ width: 360, height: 600 });
  await page.getByRole('button', { name: 'Taken out', exact: true }).tap();
  expect(await missedAt(page, smallest, true)).toEqual([]);
  await sheet(page).getByRole('button', { name: 'Close' }).tap();
  await page.getByRole('button', { name: 'Correct “fed 0.96\u00a0kg”' }).tap();
  expect(await missedAt(page, smallest, true)).toEqual([]);
  await sheet(page).getByRole('button', { name: 'Close' }).tap();

  await page.setViewportSize({ width: 360, height: 600 });
  await page.getByRole('button', { name: 'Stop recording' }).tap();
  expect(await missed(page.getByRole('alertdialog'), false)).toEqual([]);
});

test('on small phones every field and button of the forms in sheets can be reached', async ({ openPage }) => {
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  await fillInventory(bench);
  const page = await openPage(`${bench.url}#/shelf`, { width: 390 });
  for (const name of ['Add a revision', 'Add a lot', 'Add a place']) {
    await page.getByRole('button', { name }).tap();
    expect(await missedAt(page, smallest, true)).toEqual([]);
    await sheet(page).getByRole('button', { name: 'Close' }).tap();
  }
  await page.goto(`${bench.url}#/rig`);
  await page.locator('.channel-name').first().tap();
  expect(await missedAt(page, smallest, true)).toEqual([]);
  await sheet(page).getByRole('button', { name: 'Close' }).tap();
  await page.getByRole('button', { name: /read a thermometer yourself/ }).tap();
  expect(await missedAt(page, smallest, true)).toEqual([]);
});

test('a feed three times as heavy as any before gives a question before it is saved, and the figure is never lost', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { burn: earlier } = await startBurn(bench);
  await bench.ask('POST', `/burns/${earlier.id}/marks`, { kind: 'fed', massKg: 1.2 });
  await bench.ask('PATCH', `/burns/${earlier.id}`, { status: 'ended', expectedVersion: earlier.version });
  const { burn } = await bench.ask<BurnDetail>('POST', '/burns', {
    status: 'running',
    revisionId: earlier.revisionId,
    fuelLotIds: earlier.fuelLotIds,
  });
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const fedKg = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.flatMap(({ mark }) =>
      mark.kind === 'fed' ? [mark.massKg] : [],
    );
  const page = await openPage(bench.url, { width: 390 });
  await page.setViewportSize({ width: 360, height: 600 });
  const press = async (keys: string) => {
    for (const key of keys) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  };
  const feed = () => page.locator('.thumb .main').tap();

  // Three times the heaviest of the stove, to the gram: no question yet.
  await feed();
  await press('3.6');
  await page.getByRole('button', { name: 'Save 3.60\u00a0kg' }).tap();
  await patiently(fedKg).toEqual([3.6]);
  await page.getByRole('button', { name: 'Undo “fed 3.60\u00a0kg”' }).tap();
  await page.locator('.log').getByText('fed 3.60').waitFor({ state: 'detached' });

  await feed();
  await press('4');
  const log = page.getByRole('button', { name: 'Save 4.00\u00a0kg', exact: true });
  const { x = 0, y = 0, width = 0, height = 0 } = (await log.boundingBox()) ?? {};
  // A double tap returns to the keys.
  for (let taps = 0; taps < 2; taps++) await page.touchscreen.tap(x + width / 2, y + height / 2);
  await log.waitFor();
  expect(await page.locator('.feed-mass').textContent()).toBe('4 kg');
  await log.tap();
  const question = page.getByRole('alertdialog');
  await question.getByText('more than three times the heaviest feed of this stove so far, 1.20\u00a0kg').waitFor();
  expect([await missedAt(page, smallest, false), await complaints(page)]).toEqual([[], []]);
  await page.reload();
  await question.getByRole('button', { name: 'No, change it' }).tap();
  await page.getByRole('button', { name: 'Delete the last figure' }).tap();
  await press('0.4');
  await page.getByRole('button', { name: 'Save 0.40\u00a0kg' }).tap();
  await patiently(fedKg).toEqual([3.6, 0.4]);

  // A correction gives a question as well; the feed that it corrects is not compared with.
  const correct = async (was: string, mass: string) => {
    await page.getByRole('button', { name: `Correct “fed ${was}\u00a0kg”` }).tap();
    await sheet(page).getByLabel('Mass').fill(mass);
    await sheet(page).getByRole('button', { name: 'Save', exact: true }).tap();
  };
  await correct('0.40', '4');
  await question.getByText('more than three times the heaviest feed of this stove so far, 1.20\u00a0kg').waitFor();
  expect([await missedAt(page, smallest, true), await complaints(page)]).toEqual([[], []]);
  await question.getByRole('button', { name: 'No, change it' }).tap();
  await sheet(page).getByLabel('Mass').fill('0.45');
  await sheet(page).getByRole('button', { name: 'Save', exact: true }).tap();
  await patiently(fedKg).toEqual([3.6, 0.45]);
  await sheet(page).waitFor({ state: 'detached' });

  await feed();
  await press('9');
  await page.getByRole('button', { name: 'Save 9.00\u00a0kg' }).tap();
  await page.getByRole('button', { name: 'Yes, save 9.00\u00a0kg' }).tap();
  // In the order of feeding, although no board gives this burn the time.
  await patiently(fedKg).toEqual([3.6, 0.45, 9]);
  await correct('9.00', '4');
  await page.getByRole('button', { name: 'Yes, 4.00\u00a0kg is right' }).tap();
  await patiently(fedKg).toEqual([3.6, 0.45, 4]);
});

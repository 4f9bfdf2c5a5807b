import type { Route } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithHeron, benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

test('in French the page reads and writes the decimal comma', async ({ openPage }) => {
  const bench = await benchWithPage({ timeScale: 20 });
  await plugInSimulatedBoard(bench, 20);
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const page = await openPage(bench.url, { width: 390, language: 'fr' });
  await page.locator('.number .figure').waitFor();
  expect(await page.locator('.number .figure').textContent()).toMatch(/^\d+,\d$/);
  expect(await page.locator('html').getAttribute('lang')).toBe('fr');
  await page.getByRole('button', { name: /^Rechargé/ }).tap();
  for (const key of ['1', ',', '2', '2']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  await page.getByRole('button', { name: 'Enregistrer 1,22' }).tap();
  await page.locator('.log').getByText('rechargé 1,22').waitFor();
  const fed = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.find(({ mark }) => mark.kind === 'fed');
  await patiently(async () => (await fed())?.mark).toMatchObject({ massKg: 1.22 });
});

test('a figure typed in French with a comma and three decimals is not in thousands', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/new`, { language: 'fr' });
  await page.getByLabel('Eau dans la marmite').fill('29,485');
  await page.getByLabel('Bois préparé').fill('6.5');
  await page.getByRole('button', { name: 'Lancer l’enregistrement' }).click();
  await page.locator('.run-head').waitFor();
  const { burns } = await bench.ask<{ burns: { id: string }[] }>('GET', '/burns');
  await patiently(async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burns[0]?.id}`)).weighings.map(({ weighing }) => [
      weighing.of,
      weighing.massKg,
    ]),
  ).toEqual([
    ['water', 29.485],
    ['fuelPile', 6.5],
  ]);
});

test('errors of the service are in the language of the page', async ({ openPage }) => {
  const bench = await benchWithPage();
  await bench.ask('POST', '/vessels', { name: 'cuve' });
  const page = await openPage(`${bench.url}#/shelf`, { language: 'fr', expectedErrors: [/status of 409/] });
  await page.getByRole('button', { name: 'Modifier cuve' }).click();
  const { vessels } = await bench.ask<{ vessels: { id: string }[] }>('GET', '/vessels');
  await bench.ask('PUT', `/vessels/${vessels[0]?.id}`, { name: 'cuve de 30 litres', expectedVersion: 1 });
  await page.locator('dialog').getByLabel('Nom').fill('cuve bleue');
  await page.locator('dialog').getByRole('button', { name: 'Enregistrer' }).click();
  await page.locator('dialog').getByText('Quelqu’un a changé ceci entre-temps sur un autre écran').waitFor();
});

// Summer time ends in Paris on 25 October 2026 at 01:00 UTC (Directive 2000/84/EC: the last Sunday of October).
test('a burn across the end of summer time shows the clock of its place, hour by hour', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench);
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  const started = (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).burn.startedUtcMs ?? 0;
  const sinceStartUs = (utc: string) => (Date.parse(utc) - started) * 1000;
  for (const utc of ['2026-10-25T00:30:00Z', '2026-10-25T01:30:00Z', '2026-10-25T02:30:00Z'])
    await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'nudged', elapsedUs: sinceStartUs(utc) });
  const page = await openPage(`${bench.url}#/burns/${burn.id}`);
  await page.locator('.log li').nth(2).waitFor();
  expect(await page.locator('.log-clock').allTextContents()).toEqual(['02:30', '02:30', '03:30']);
});

test('language, theme and units are chosen on the device, at once and for the next visit', async ({ openPage }) => {
  const { bench, records } = await benchWithHeron([4]);
  const [record] = records;
  const page = await openPage(`${bench.url}#/settings`);
  await page.getByRole('radio', { name: 'français' }).check();
  await page.getByRole('heading', { name: 'Options de cet appareil' }).waitFor();
  await page.getByRole('radio', { name: 'nuit' }).check();
  await page.getByRole('radio', { name: /américaines/ }).check();
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe('rgb(17, 19, 15)');

  await page.goto(`${bench.url}#/burns/${record?.id}`);
  await page.reload();
  await page.locator('.result.primary').waitFor();
  expect(await page.locator('.result.primary .result-value').textContent()).toMatch(/^\d,\d\d\u00a0lb$/);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe('rgb(17, 19, 15)');
  await page.getByText('Un petit carreau\u00a0: 5 min sur 10\u00a0°F.').waitFor();
});

test('a chosen language is shown at once, and the previous one returns when its words do not load', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/settings`, { expectedErrors: [/Failed to load resource/, /net::ERR/] });
  const [french, english] = [
    page.getByRole('radio', { name: 'français' }),
    page.getByRole('radio', { name: 'English' }),
  ];
  const held: (() => Promise<void>)[] = [];
  await page.route(/\.fr-[^/]*\.js$/, (route) => void held.push(() => route.abort('connectionrefused')));
  await french.check();
  await patiently(() => held.length).toBeGreaterThan(0);
  expect(await page.locator('h1').textContent()).toBe('Settings of this device');
  for (const refuse of held) await refuse();
  await patiently(() => english.isChecked()).toBe(true);

  // With the service available again, they load.
  await page.unroute(/\.fr-[^/]*\.js$/);
  await french.check();
  await page.getByRole('heading', { name: 'Options de cet appareil' }).waitFor();
});

test('of two languages chosen while the words of one are loading, the last is used', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/settings`);
  const [french, english] = [
    page.getByRole('radio', { name: 'français' }),
    page.getByRole('radio', { name: 'English' }),
  ];
  const late: Route[] = [];
  let isHeld = true;
  await page.route(/\.fr-[^/]*\.js$/, (route) => (isHeld ? void late.push(route) : route.continue()));
  await french.check();
  // The first part of a language, and the rest in one request.
  await patiently(() => late.length).toBe(2);
  await english.check();
  isHeld = false;
  for (const route of late) await route.continue();
  for (const route of late) await page.evaluate(`import('${route.request().url()}').then(() => undefined)`);
  expect(await page.locator('h1').textContent()).toBe('Settings of this device');
  expect(await english.isChecked()).toBe(true);
});

import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, keepHeronBurns, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';

async function fullBench() {
  const timeScale = 20;
  const bench = await benchWithPage({ timeScale });
  const [bare, sleeved] = await keepHeronBurns(bench, [1, 4]);
  await plugInSimulatedBoard(bench, timeScale);
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg: 1.1 });
  return { bench, bare: bare?.id, sleeved: sleeved?.id };
}

interface Screen {
  name: string;
  hash: string;
  ready: string;
  open?: (page: Page) => Promise<void>;
}

function screens({ bare, sleeved }: { bare: string | undefined; sleeved: string | undefined }): Screen[] {
  return [
    { name: 'a running burn', hash: '', ready: '.number .figure' },
    { name: 'feeding', hash: '', ready: '.number .figure', open: (page) => page.locator('.thumb .main').click() },
    {
      name: 'other marks',
      hash: '',
      ready: '.number .figure',
      open: (page) => page.locator('.thumb-rest button').last().click(),
    },
    {
      name: 'correcting a mark',
      hash: '',
      ready: '.log li',
      open: (page) => page.locator('.log li button').first().click(),
    },
    { name: 'the burns list', hash: '#/burns', ready: '.burn-line' },
    {
      name: 'one burn',
      hash: `#/burns/${sleeved}`,
      ready: '.result.primary',
      open: (page) => page.locator('.result.primary summary').click(),
    },
    { name: 'burns over each other', hash: `#/overlay/${sleeved}/${bare}`, ready: '.strip canvas' },
    { name: 'wrapping up', hash: `#/burns/${sleeved}/wrap-up`, ready: '.step' },
    { name: 'a new burn', hash: '#/new', ready: '.burn-form' },
    { name: 'the rig', hash: '#/rig', ready: '.channels tbody tr' },
    {
      name: 'a probe',
      hash: '#/rig',
      ready: '.channel-name',
      open: (page) => page.locator('.channel-name').first().click(),
    },
    { name: 'the shelf', hash: '#/shelf', ready: '.shelf-item' },
    {
      name: 'a lot of wood',
      hash: '#/shelf',
      ready: '.shelf-item',
      open: (page) => page.getByRole('button', { name: /^Add a lot/ }).click(),
    },
    { name: 'settings', hash: '#/settings', ready: '.choice' },
    { name: 'cautions', hash: '#/cautions', ready: '.cautions p' },
    { name: 'an address of nothing', hash: '#/nowhere', ready: 'main a' },
  ];
}

describe.each([
  { width: 390, theme: 'light' },
  { width: 1280, theme: 'dark' },
] as const)('at $width px in the $theme', ({ width, theme }) => {
  test('no screen has anything against WCAG 2.2 AA, or runs out of its width', { timeout: 120_000 }, async ({
    openPage,
  }) => {
    const bench = await fullBench();
    const page = await openPage(bench.bench.url, { width, theme });
    const found: Record<string, string[]> = {};
    for (const { name, hash, ready, open } of screens(bench)) {
      await page.goto('about:blank');
      await page.goto(bench.bench.url + hash);
      await page.locator(ready).first().waitFor();
      await open?.(page);
      found[name] = [...(await complaints(page)), ...((await overflow(page)) > 0 ? ['wider than the screen'] : [])];
    }
    expect(Object.entries(found).filter(([, list]) => list.length > 0)).toEqual([]);
  });
});

test('an empty bench is as accessible as a full one', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(bench.url, { width: 390, theme: 'dark' });
  await page.locator('.three').waitFor();
  expect(await complaints(page)).toEqual([]);
});

test('a burn is lit, fed and undone with the keyboard alone', async ({ openPage }) => {
  const bench = await benchWithPage({ timeScale: 20 });
  await plugInSimulatedBoard(bench, 20);
  await startBurn(bench);
  const page = await openPage(bench.url);
  await page.getByRole('button', { name: /^Lit/ }).focus();
  await page.keyboard.press('Enter');
  await page.locator('.log').getByText('Lit').waitFor();
  await page.getByRole('button', { name: /^Fed/ }).focus();
  await page.keyboard.press('Enter');
  // The dialog has the focus and gives it back when it closes.
  await page.locator('dialog').waitFor();
  expect(await page.evaluate(() => document.activeElement?.closest('dialog') !== null)).toBe(true);
  await page.keyboard.press('Escape');
  await page.locator('dialog').waitFor({ state: 'detached' });
  expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^Fed/);
  await page.getByRole('button', { name: 'Undo “Lit”' }).focus();
  await page.keyboard.press('Space');
  await page.locator('.log').getByText('Lit').waitFor({ state: 'detached' });
});

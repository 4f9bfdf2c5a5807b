import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { parseRoute, type Route } from '../../web/addresses/router.ts';
import { test } from '../support/browser.ts';
import { complaints, looksOf, overflow } from './accessible.ts';
import { benchWithHeron, benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';

async function fullBench() {
  // Fast enough for figures at once, slow enough that the running burn is not redrawn all the time.
  const timeScale = 4;
  const { bench, records } = await benchWithHeron([1, 4], { timeScale });
  const [bare, sleeved] = records;
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

const named = (name: RegExp) => (page: Page) => page.getByRole('button', { name }).first().click();

/**
 * Every address of the page that the tests of comparing and importing do not visit themselves, and every sheet on it.
 */
function screens({ bare, sleeved }: { bare: string | undefined; sleeved: string | undefined }): Screen[] {
  const live = { hash: '', ready: '.number .figure' };
  const one = { hash: `#/burns/${sleeved}`, ready: '.result.primary' };
  const inventory = { hash: '#/shelf', ready: '.inventory-item' };
  const setupScreen = { hash: '#/rig', ready: '.channel-name' };
  const other = (page: Page) => page.locator('.thumb-rest button').last().click();
  return [
    { name: 'a running burn', ...live },
    { name: 'feeding', ...live, open: (page) => page.locator('.thumb .main').click() },
    { name: 'other marks', ...live, open: other },
    {
      name: 'goods out, refused',
      ...live,
      open: async (page) => {
        await other(page);
        await named(/^Taken out$/)(page);
        await named(/^Save$/)(page);
      },
    },
    { name: 'a note', ...live, open: named(/^Note$/) },
    {
      name: 'correcting a mark',
      hash: '',
      ready: '.log li',
      open: (page) => page.locator('.log li button').first().click(),
    },
    { name: 'stopping', ...live, open: named(/^Stop recording$/) },
    { name: 'the burns list', hash: '#/burns', ready: '.burn-line' },
    {
      // With everything folded it is part of the next two.
      name: 'one burn, everything unfolded, leaving a stretch out, refused',
      ...one,
      open: async (page) => {
        for (const folded of ['.result.primary', '.strip-table', '.by-method', '.edits'])
          await page.locator(`${folded} summary`).click();
        for (const content of ['.working', '.strip-table tbody tr', '.every-method tbody tr', '.edit-list, .edits p'])
          await page.locator(content).first().waitFor();
        await named(/^Leave out a stretch$/)(page);
        await named(/^Leave it out$/)(page);
      },
    },
    { name: 'setting aside', ...one, open: named(/^Don’t count this burn$/) },
    { name: 'removing', ...one, open: named(/^Remove$/) },
    { name: 'burns over each other', hash: `#/overlay/${sleeved}/${bare}`, ready: '.strip canvas' },
    { name: 'wrapping up', hash: `#/burns/${sleeved}/wrap-up`, ready: '.weigh-field' },
    { name: 'describing a burn', hash: `#/burns/${sleeved}/describe`, ready: '.burn-form' },
    { name: 'a new burn', hash: '#/new', ready: '.burn-form' },
    {
      name: 'a new burn, refused, with goods',
      hash: '#/new',
      ready: '.burn-form',
      open: async (page) => {
        await page.getByLabel('Water in the pot').fill('much');
        await named(/^Add contents$/)(page);
        await named(/^Keep for later$/)(page);
        await page.locator('.field.wrong').first().waitFor();
      },
    },
    { name: 'the probes', ...setupScreen },
    { name: 'a probe', ...setupScreen, open: (page) => page.locator('.channel-name').first().click() },
    {
      name: 'a calibration',
      ...setupScreen,
      open: async (page) => {
        await page.locator('.channel-name').first().click();
        await named(/^Ice point$/)(page);
      },
    },
    { name: 'columns of a board', ...setupScreen, open: (page) => page.getByLabel('This board only prints').check() },
    { name: 'detaching', ...setupScreen, open: named(/^Detach$/) },
    { name: 'a board to be checked', hash: '#/board-check/%2Fdev%2Fnone', ready: '.begin-check' },
    { name: 'the shelf', ...inventory },
    ...['stove', 'revision', 'pot', 'lot', 'place', 'scale'].map((what) => ({
      name: `a ${what}, refused`,
      ...inventory,
      open: async (page: Page) => {
        await named(new RegExp(`^Add a ${what}$`))(page);
        await named(/^Save$/)(page);
      },
    })),
    { name: 'bringing in', hash: '#/bring-in', ready: 'input[type=file]' },
    { name: 'settings', hash: '#/settings', ready: '.choice' },
    { name: 'phones on the network', hash: '#/phones', ready: 'main h1' },
    {
      name: 'a cooling run, refused',
      hash: '#/cooling',
      ready: '.cooling-form',
      open: named(/^Start the half hour$/),
    },
    { name: 'cautions', hash: '#/cautions', ready: '.cautions p' },
    { name: 'an address of nothing', hash: '#/nowhere', ready: 'main a' },
  ];
}

const LOOKS = [
  ['phone', 'light'],
  ['laptop', 'dark'],
] as const;

/** The open sheet and its problems: the other device has to show them as well. */
const sheetAndProblems = (page: Page) =>
  page.evaluate(() => ({
    sheet: document.querySelector('dialog[open] h2')?.textContent,
    problems: document.querySelectorAll('.field.wrong').length,
    unfolded: document.querySelectorAll('details[open]').length,
  }));

/**
 * Opens a screen by its address from an empty page; a half-typed sheet is stored for its tab, and has to be removed.
 */
function goAfresh(page: Page, hash: string): Promise<void> {
  return page.evaluate(async (address) => {
    const go = (to: string) => {
      sessionStorage.clear();
      location.hash = to;
    };
    go('#/nowhere');
    while (!document.body.textContent.includes('There is no screen at this address.'))
      await new Promise((done) => requestAnimationFrame(done));
    go(address);
  }, hash);
}

test('no screen violates WCAG 2.2 AA or is wider than its display, on a phone in the light theme and a laptop in the dark one', async ({
  openPage,
}) => {
  const bench = await fullBench();
  const page = await openPage(bench.bench.url, { width: 390 });
  const look = await looksOf(page);
  const found: Record<string, string[]> = {};
  for (const { name, hash, ready, open } of screens(bench)) {
    await look('phone', 'light');
    await goAfresh(page, hash);
    await page.locator(ready).first().waitFor();
    await open?.(page);
    const seen: unknown[] = [];
    for (const [device, theme] of LOOKS) {
      await look(device, theme);
      const screen = `${name}, ${device}`;
      // A target under the row of the thumb can be scrolled clear of it; curves that arrive meanwhile move it back
      // under.
      for (let turn = 0; turn < 3 && (turn === 0 || found[screen]!.length > 0); turn++) {
        await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
        found[screen] = [...(await complaints(page)), ...((await overflow(page)) > 0 ? ['wider than the screen'] : [])];
      }
      seen.push(await sheetAndProblems(page));
    }
    expect(seen[1], name).toEqual(seen[0]);
  }
  expect(Object.entries(found).filter(([, list]) => list.length > 0)).toEqual([]);
});

test('every address of the page is visited', () => {
  const looked = [
    ...screens({ bare: 'x', sleeved: 'x' }).map(({ hash }) => parseRoute(hash).at),
    'run',
    'compare',
    'pair',
  ];
  const known: Record<Route['at'], true> = {
    now: true,
    burns: true,
    run: true,
    burn: true,
    wrapUp: true,
    describe: true,
    overlay: true,
    // Visited by the test of the comparing screens.
    compare: true,
    rig: true,
    boardCheck: true,
    shelf: true,
    bringIn: true,
    settings: true,
    phones: true,
    // Visited by the test of pairing.
    pair: true,
    cautions: true,
    cooling: true,
    unknown: true,
  };
  expect(Object.keys(known).filter((at) => !looked.includes(at as Route['at']))).toEqual([]);
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
  // The dialog has the focus and returns it when it closes.
  await page.locator('dialog').waitFor();
  expect(await page.evaluate(() => document.activeElement?.closest('dialog') !== null)).toBe(true);
  await page.keyboard.press('Escape');
  await page.locator('dialog').waitFor({ state: 'detached' });
  expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^Fed/);
  await page.getByRole('button', { name: 'Undo “Lit”' }).focus();
  await page.keyboard.press('Space');
  await page.locator('.log').getByText('Lit').waitFor({ state: 'detached' });
});

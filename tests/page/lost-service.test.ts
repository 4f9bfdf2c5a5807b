import { expect } from 'vitest';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import {
  benchWithPage,
  fillDisk,
  litBurn,
  plugInBoardWithSwitch,
  plugInSimulatedBoard,
  startBurn,
} from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const timeScale = 20;
/** Age, s, above which a figure is no longer a present one. */
const limitS = 5;
/** The browser logs errors for a lost network, as expected. */
const away = [/Failed to load resource/, /net::ERR/];
const onPhone = { width: 390, hasTestClock: true, expectedErrors: away } as const;
/** Interval, s, at which a page retries waiting entries; for the service itself it may pause longer. */
const tryAgainS = 3;
const longestPauseS = 8;

async function runningBurn() {
  const { bench, burn, marks } = await litBurn(timeScale);
  const fed = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.filter(({ mark }) => mark.kind === 'fed');
  return { bench, burn, fed, marks };
}

test('entries made while the service is away wait on the phone and arrive exactly once', async ({ openPage }) => {
  const { bench, fed } = await runningBurn();
  const page = await openPage(bench.url, onPhone);
  await page.getByRole('button', { name: /^Fed/ }).waitFor();

  await page.context().setOffline(true);
  await page.getByText('The service does not answer.').waitFor();
  await page.getByRole('button', { name: /^Fed/ }).tap();
  for (const key of ['0', '.', '8']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  await page.getByRole('button', { name: 'Save 0.80 kg' }).tap();
  await page.getByText('1 entry waiting').waitFor();
  await page.locator('.log').getByText('waiting').waitFor();
  expect(await fed()).toEqual([]);

  await page.context().setOffline(false);
  await page.getByText('1 entry waiting').waitFor({ state: 'detached' });
  await expect
    .poll(async () => (await fed()).map(({ mark, version }) => [mark.kind === 'fed' && mark.massKg, version]))
    .toEqual([[0.8, 1]]);
  await page.locator('.banner').waitFor({ state: 'detached' });
});

test('an entry whose answer is lost counts once', async ({ openPage }) => {
  const { bench, fed } = await runningBurn();
  const page = await openPage(bench.url, onPhone);
  let lost = 0;
  await page.route('**/marks', async (route) => {
    if (lost > 0) return route.continue();
    lost += 1;
    // The service receives it, the phone never receives the answer.
    await route.fetch();
    await route.abort('connectionreset');
  });
  await page.getByRole('button', { name: /^Fed/ }).tap();
  await page.getByRole('button', { name: 'Not weighed' }).tap();
  await patiently(async () => (await fed()).length).toBe(1);
  await page.clock.fastForward(tryAgainS * 1000);
  await page.locator('.banner').waitFor({ state: 'detached' });
  expect(lost).toBe(1);
  expect((await fed()).length).toBe(1);
});

test('a waiting entry survives a reload of the page, and two tabs of one phone send it once', async ({ openPage }) => {
  const { bench, fed, marks } = await runningBurn();
  const page = await openPage(bench.url, { width: 390, expectedErrors: away });
  const context = page.context();
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).waitFor();
  await context.route('**/marks', (route) => route.abort('connectionrefused'));
  await page.getByRole('button', { name: /^Fed/ }).tap();
  await page.getByRole('button', { name: 'Not weighed' }).tap();
  await page.getByText('1 entry waiting').waitFor();
  await page.reload();
  await page.getByText('1 entry waiting').waitFor();
  expect(await fed()).toEqual([]);

  const other = await context.newPage();
  await other.goto(bench.url);
  await other.getByText('1 entry waiting').waitFor();
  await other.getByRole('button', { name: 'Poked the fire', exact: true }).tap();
  for (const tab of [page, other]) {
    await tab.getByText('2 entries waiting').waitFor();
    await tab.locator('.log').getByText('Poked the fire').waitFor();
  }
  let sent = 0;
  context.on('response', (response) => {
    if (response.request().method() === 'POST' && response.url().endsWith('/marks')) sent += 1;
  });
  await context.unroute('**/marks');
  for (const tab of [page, other]) await tab.locator('.banner').waitFor({ state: 'detached' });
  expect([(await fed()).length, (await marks()).map(({ kind }) => kind).sort(), sent]).toEqual([
    1,
    ['fed', 'lit', 'nudged'],
    2,
  ]);
});

test('the page notices a service that stops and restarts, and continues to show the burn', async ({ openPage }) => {
  const { bench } = await runningBurn();
  const page = await openPage(bench.url, onPhone);
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).waitFor();
  await bench.stop();
  await page.getByText('The service does not answer.').waitFor();
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).tap();
  await page.getByText('1 entry waiting').waitFor();
  await bench.start();
  await page.clock.fastForward(longestPauseS * 1000);
  await page.locator('.banner').waitFor({ state: 'detached' });
  await page.locator('.log').getByText('Poked the fire').waitFor();
  await page.locator('.log').getByText('waiting').waitFor({ state: 'detached' });
});

test('the last reading turns grey and shows its age, when the board falls silent and when the service is lost', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  const board = await plugInBoardWithSwitch(bench, timeScale);
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const page = await openPage(bench.url, onPhone);
  await page.setViewportSize({ width: 360, height: 600 });
  const figure = page.locator('.number .figure');
  const inkOf = (selector: string) => page.locator(selector).evaluate((element) => getComputedStyle(element).color);
  const quiet = () => inkOf('.caption');
  await figure.waitFor();
  // A screen reader announces the figure as soon as it is there.
  await patiently(() => page.locator('.reading [aria-live]').textContent()).toContain('°C');
  await page
    .getByText(/Rising|Steady/)
    .first()
    .waitFor();
  expect([await page.locator('.age').count(), (await inkOf('.number .figure')) === (await quiet())]).toEqual([
    0,
    false,
  ]);
  // Its code loads after the first screen: without it there is nothing to show once the service is away.
  await page.getByRole('link', { name: 'Probes' }).tap();
  await page.locator('.channels').first().waitFor();
  await page.getByRole('link', { name: 'Now' }).tap();
  await figure.waitFor();

  await bench.stop();
  await page.clock.fastForward(limitS * 1000);
  await page.locator('.reading .age').waitFor();
  // Five seconds of the person are a hundred of the burn, whose clock gives the age.
  expect(await page.locator('.reading .age').textContent()).toMatch(/^\d+\s(s|min) ago$/);
  for (const part of ['.number .figure', '.number-unit', '.outlook']) expect(await inkOf(part)).toBe(await quiet());
  await page.getByRole('link', { name: 'Probes' }).tap();
  await page.locator('.channels tr.old .age').first().waitFor();
  expect(await page.locator('.channels tbody tr:not(.old)').count()).toBe(0);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await bench.start();
  await page.getByRole('link', { name: 'Now' }).tap();
  await page.locator('.reading:not(.old) .figure').waitFor();

  board.switchOff();
  // On a busy machine scans may still be on the way to a page that shows its figure as old.
  const stateOfBoard = async () => (await bench.ask<{ boards: Board[] }>('GET', '/boards')).boards[0]?.state;
  await patiently(stateOfBoard).not.toBe('live');
  bench.leap(limitS * timeScale);
  await page.clock.fastForward(limitS * 1000);
  await page.locator('.reading.old .age').waitFor();
  // Neither a mark nor a page that is opened now has a newer reading of the water.
  await page.getByRole('button', { name: 'Poked the fire' }).tap();
  await page.locator('.log').getByText('Poked the fire').waitFor();
  await page.locator('.reading.old .age').waitFor();
  const opened = async () => {
    await page.reload();
    await page.locator('.reading.old .age').waitFor();
    return figure.textContent();
  };
  // On a busy machine the first page may have missed the last scans of the board; one that is opened now has them.
  const last = await opened();
  expect(Number(await opened())).toBeCloseTo(Number(last), 0);
});

test('a full disk on the bench machine gives an alarm at once, with what waits, which ends when there is room', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  await startBurn(bench);
  const page = await openPage(bench.url, { width: 390 });
  await page.locator('.number .figure').waitFor();
  const makeRoom = fillDisk(bench);
  await page.getByText('The disk of the bench machine is full.').waitFor();
  await page.getByText(/\d+ scans wait in its memory/).waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  makeRoom();
  await page.getByText('The disk of the bench machine is full.').waitFor({ state: 'detached' });
});

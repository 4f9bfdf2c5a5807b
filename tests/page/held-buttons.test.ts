import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/** A minute takes one second, so that a hold of one minute is done quickly. */
const timeScale = 60;

test('buttons do what they showed when pressed, "fire out" follows the hold, and alarms reach every screen', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  const dial = { name: 'Pot', role: 'water', unit: 'Cel', probe: { kind: 'dial' }, standardUncertainty: 1 };
  const { id: channelId } = await bench.ask<{ id: string }>('POST', '/hand-probes', dial);
  const { burn } = await startBurn(bench, {
    target: { kind: 'temperature', tempC: 40 },
    hold: { durationS: 60, onDrop: 'pause' },
  });
  const mark = (kind: string, more: object = {}) => bench.ask('POST', `/burns/${burn.id}/marks`, { kind, ...more });
  const kinds = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.flatMap((stored) =>
      stored.withdrawn || stored.mark.kind === 'reading' ? [] : [stored.mark.kind],
    );
  await mark('lit');
  await mark('nudged');
  const page = await openPage(bench.url, { width: 390 });
  await page.setViewportSize({ width: 360, height: 600 });
  const thumb = page.locator('.thumb');

  // Another phone acts during the press.
  const undo = page.getByRole('button', { name: 'Undo “Poked the fire”' });
  await undo.hover();
  await page.mouse.down();
  await mark('away');
  await page.locator('.log').getByText('Left the fire').waitFor();
  expect(await undo.count()).toBe(1);
  await page.mouse.up();
  await patiently(kinds).toEqual(['lit', 'away']);
  await page.getByText('Taken back: Poked the fire').waitFor();
  await page.getByRole('button', { name: 'Undo “Left the fire”' }).waitFor();

  await thumb.getByRole('button', { name: 'Take lid off' }).hover();
  await page.mouse.down();
  await mark('lidOff');
  await page.locator('.log').getByText('Lid off').waitFor();
  await page.mouse.up();
  await patiently(kinds).toEqual(['lit', 'away', 'lidOff', 'lidOff']);
  await thumb.getByRole('button', { name: 'Put lid on' }).tap();
  await patiently(kinds).toEqual(['lit', 'away', 'lidOff', 'lidOff', 'lidOn']);

  await page.evaluate(() => {
    localStorage.setItem('stovebench.sound', 'off');
    sessionStorage.setItem('shaken', '0');
  });
  await page.reload();
  await thumb.locator('.main').getByText('Fed').waitFor();
  await page.evaluate(() => {
    navigator.vibrate = () => {
      sessionStorage.setItem('shaken', String(Number(sessionStorage.getItem('shaken')) + 1));
      return true;
    };
  });
  await page.getByRole('link', { name: 'Stoves' }).tap();
  await page.getByRole('button', { name: 'Add a place' }).tap();
  await mark('reading', { channelId, value: 55 });
  await patiently(async () => {
    const { elapsedUs = 0, marks } = await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
    return elapsedUs - Math.max(...marks.map(({ mark: { elapsedUs: at } }) => at));
  }).toBeGreaterThan(90e6);
  await mark('reading', { channelId, value: 55 });

  // In the sheet, on the screen under it, and on any other; once dismissed, removed from all of them.
  await page.locator('dialog').getByText('The hold is done.').waitFor();
  expect(await page.evaluate(() => Number(sessionStorage.getItem('shaken')))).toBeGreaterThan(0);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.locator('dialog').getByRole('button', { name: 'Close' }).tap();
  await page.getByRole('link', { name: 'Settings' }).tap();
  const call = page.locator('.call', { hasText: 'The hold is done.' });
  await page
    .getByRole('heading', { name: 'Cautions' })
    .or(page.getByText('Stovebench 0'))
    .last()
    .scrollIntoViewIfNeeded();
  expect(await call.evaluate((element) => element.getBoundingClientRect().top)).toBeGreaterThanOrEqual(0);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await call.getByRole('link', { name: burn.title }).tap();

  await thumb.locator('.main').getByText('Fire out').waitFor();
  await page.locator('.run .call').getByText('The hold is done.').waitFor();
  expect(await thumb.getByRole('button', { name: 'Poked the fire' }).count()).toBe(0);
  await page.getByRole('button', { name: 'Other…' }).tap();
  await page.locator('dialog').getByRole('button', { name: 'Poked the fire' }).tap();
  await thumb.getByRole('button', { name: 'Fed' }).tap();
  await page.getByRole('button', { name: 'Not weighed' }).tap();
  await page.locator('.run .call', { hasText: 'The hold is done.' }).getByRole('button', { name: 'Seen' }).tap();
  await thumb.locator('.main').tap();
  await patiently(async () => (await kinds()).slice(5)).toEqual(['nudged', 'fed', 'fireOut']);
  await thumb.locator('.main').getByText('Weigh what is left').waitFor();
  expect(await page.getByText('The hold is done.').count()).toBe(0);
});

test('an undo that another phone renames just before the press withdraws the mark it showed before', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench);
  const mark = (kind: string) => bench.ask('POST', `/burns/${burn.id}/marks`, { kind });
  const kinds = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.flatMap((stored) =>
      stored.withdrawn ? [] : [stored.mark.kind],
    );
  await mark('lit');
  await mark('nudged');
  const page = await openPage(bench.url, { width: 390 });
  await page.getByRole('button', { name: 'Undo “Poked the fire”' }).waitFor();
  // The press comes at the moment in which the name changes.
  await page.evaluate(() => {
    const button = document.querySelector<HTMLButtonElement>('.undo');
    if (!button) throw new Error('there is no undo');
    new MutationObserver((_changes, watch) => {
      watch.disconnect();
      button.click();
    }).observe(button, { childList: true, characterData: true, subtree: true });
  });
  await mark('away');
  await page.getByText('Taken back: Poked the fire').waitFor();
  await patiently(kinds).toEqual(['lit', 'away']);
  // The one that it names now, after the time to read it.
  await page.getByRole('button', { name: 'Undo “Left the fire”' }).waitFor();
});

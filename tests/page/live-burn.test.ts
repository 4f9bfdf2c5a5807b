import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { litBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { undoOf } from './undo-of.ts';

const timeScale = 60;

/** A running burn of the Heron on a fast clock. */
async function runningBurn() {
  const { bench, burn } = await litBurn(timeScale);
  const marks = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.filter(({ withdrawn }) => !withdrawn);
  return { bench, burn, marks };
}

/** Counts pixels in the track of marks that have the colour of wood. */
function woodPixels(page: Page): Promise<number> {
  return page.locator('.strip-box canvas').evaluate((canvas: HTMLCanvasElement) => {
    const ember = getComputedStyle(canvas).getPropertyValue('--ember').trim();
    const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(ember.slice(at, at + 2), 16));
    const { data } = (canvas.getContext('2d') as CanvasRenderingContext2D).getImageData(
      0,
      0,
      canvas.width,
      canvas.height,
    );
    let count = 0;
    for (let at = 0; at < data.length; at += 4)
      if (data[at] === red && data[at + 1] === green && data[at + 2] === blue) count += 1;
    return count;
  });
}

describe('a running burn on a phone', () => {
  test('shows the water first, and a logged feed appears on the chart, in the log and in the service', async ({
    openPage,
  }) => {
    const { bench, marks } = await runningBurn();
    const page = await openPage(bench.url, { width: 390 });
    await page.locator('.number .figure').waitFor();
    expect(Number(await page.locator('.number .figure').textContent())).toBeGreaterThan(5);
    await page.locator('.strip-box canvas').waitFor();
    await patiently(() => woodPixels(page)).toBe(0);

    await page.getByRole('button', { name: /^Fed/ }).tap();
    for (const key of ['1', '.', '2', '2']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
    await page.getByRole('button', { name: 'Save 1.22 kg' }).tap();

    await patiently(() => woodPixels(page)).toBeGreaterThan(20);
    await page.locator('.log').getByText('fed 1.22 kg').waitFor();
    await expect
      .poll(async () => (await marks()).find(({ mark }) => mark.kind === 'fed')?.mark)
      .toMatchObject({ massKg: 1.22 });
  });

  test('offers the last mass again for a feed in two taps, and withdraws it on request', async ({ openPage }) => {
    const { bench, burn, marks } = await runningBurn();
    await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg: 0.96 });
    const page = await openPage(bench.url, { width: 390 });
    await page.getByRole('button', { name: /^Fed/ }).tap();
    await page.getByRole('button', { name: '0.96 kg', exact: true }).tap();
    await patiently(async () => (await marks()).filter(({ mark }) => mark.kind === 'fed').length).toBe(2);

    await page.getByRole('button', { name: 'Undo “fed 0.96 kg”' }).tap();
    await patiently(async () => (await marks()).filter(({ mark }) => mark.kind === 'fed').length).toBe(1);
    await page.getByText('Taken back: fed 0.96 kg').first().waitFor();
  });

  test('has the buttons for the thumb in the lowest fifth, each target at least 60 px high', async ({ openPage }) => {
    const { bench } = await runningBurn();
    const page = await openPage(bench.url, { width: 390 });
    await page.locator('.thumb button').first().waitFor();
    const boxes = await page.locator('.thumb button').evaluateAll((buttons) =>
      buttons.map((button) => {
        const { top, height } = button.getBoundingClientRect();
        return { top, height };
      }),
    );
    expect(boxes.length).toBe(6);
    for (const { top, height } of boxes) {
      expect(height).toBeGreaterThanOrEqual(60);
      expect(top).toBeGreaterThanOrEqual(844 * 0.8);
    }
  });

  test('requests missing data of a mark or the burn, corrects a mark without loss, ends a hold at its mark', async ({
    openPage,
  }) => {
    const { bench, burn, marks } = await runningBurn();
    await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg: 9.6 });
    const page = await openPage(bench.url, { width: 390 });
    await page.getByRole('button', { name: 'Other…' }).tap();
    await page.getByRole('button', { name: 'Water in', exact: true }).tap();
    await page.locator('dialog').getByLabel('Mass').fill('two');
    await page.getByRole('button', { name: 'Save', exact: true }).tap();
    await page.getByText('This is not a number.').waitFor();
    await page.getByText('Type a number.').waitFor();
    await page.locator('dialog').getByLabel('Mass').fill('2');
    await page.locator('dialog').getByLabel('Temperature').fill('15,5');
    await page.getByRole('button', { name: 'Save', exact: true }).tap();
    await patiently(async () => (await marks()).find(({ mark }) => mark.kind === 'waterIn')?.mark).toMatchObject({
      massKg: 2,
      tempC: 15.5,
    });

    await page.getByRole('button', { name: 'Correct “fed 9.60 kg”' }).tap();
    await page.locator('dialog').getByLabel('Mass').fill('');
    await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
    await page.locator('dialog').getByText('Type a number.').waitFor();
    await page.locator('dialog').getByLabel('Mass').fill('0.96');
    await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
    await page.locator('.log').getByText('fed 0.96 kg').waitFor();
    const edits = async () =>
      (await bench.ask<{ edits: { before: { massKg?: number } | null }[] }>('GET', `/burns/${burn.id}/edits`)).edits;
    await patiently(async () => (await edits()).map(({ before }) => before?.massKg)).toContain(9.6);

    // The person's mark for the end of the hold ends it; without a place the boiling point has to be entered.
    await page.getByRole('button', { name: 'Other…' }).tap();
    await page.getByRole('button', { name: 'Hold ends', exact: true }).tap();
    await page.locator('.outlook').getByText('The hold is ended, as you marked it.').waitFor();
    await page.getByRole('button', { name: /^Fire out/ }).waitFor();
    await page.getByRole('button', { name: 'Undo “Hold ends”' }).tap();
    await page.getByRole('button', { name: /^Fed/ }).waitFor();

    const { version } = (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).burn;
    await bench.ask('PATCH', `/burns/${burn.id}`, { expectedVersion: version, placeId: null });
    await page.locator('.outlook').getByText('The boiling point here is not known').waitFor();
  });

  test('shows a mark made on one screen on the other at once', async ({ openPage }) => {
    const { bench } = await runningBurn();
    const phone = await openPage(bench.url, { width: 390 });
    const laptop = await openPage(bench.url, { width: 1280 });
    await phone.getByRole('button', { name: 'Poked the fire', exact: true }).tap();
    await laptop.locator('.log').getByText('Poked the fire').waitFor();
    await undoOf(laptop, 'Poked the fire').click();
    await phone.locator('.log').getByText('Poked the fire').waitFor({ state: 'detached' });
  });
});

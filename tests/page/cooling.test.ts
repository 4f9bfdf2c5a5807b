import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail, BurnPage } from '../../shared/contract/burns.ts';
import type { HandProbe } from '../../shared/contract/hand-probes.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, fillInventory } from './bench-with-page.ts';

const dial: HandProbe = {
  id: '019f0000-0000-7000-8000-000000000001',
  name: 'Eau',
  role: 'water',
  unit: 'Cel',
  probe: { kind: 'dial' },
  standardUncertainty: 0.3,
  noiseStandardDeviation: 0.1,
};

/** Starts a bench without boards, with one pot and a dial. */
async function quietBench() {
  const bench = await benchWithPage();
  const { vessel } = await fillInventory(bench);
  await bench.ask('POST', '/hand-probes', dial);
  const runs = async () => (await bench.ask<BurnPage>('GET', '/burns')).burns;
  const detail = (id: string) => bench.ask<BurnDetail>('GET', `/burns/${id}`);
  /** Readings of the dial every three minutes, with a time constant of 10,000 s towards 15 °C. */
  const read = async (id: string, minutes: readonly number[]) => {
    for (const minute of minutes)
      await bench.ask('POST', `/burns/${id}/marks`, {
        kind: 'reading',
        channelId: dial.id,
        value: 15 + 65 * Math.exp((-60 * minute) / 10_000),
        elapsedUs: minute * 60e6,
      });
  };
  return { bench, vessel, runs, detail, read };
}

const fits = async (page: Page) => expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);

test('a pot cools for half an hour, with step-by-step guidance on a phone, and its loss is shown', async ({
  openPage,
}) => {
  const { bench, vessel, runs, detail, read } = await quietBench();
  const page = await openPage(`${bench.url}#/new`, { width: 390, theme: 'dark' });
  await page.getByRole('link', { name: 'No fire today? Measure how a pot loses heat' }).tap();
  const start = page.getByRole('button', { name: 'Start the half hour' });
  await start.tap();
  // Each required field is marked, and nothing has begun.
  expect(await page.locator('.field.wrong, .wrong').count()).toBeGreaterThan(2);
  expect(await runs()).toEqual([]);
  await fits(page);
  await page.getByLabel('Pot', { exact: true }).selectOption({ label: '30-litre vat' });
  await page.getByLabel('Water in the pot').fill('28');
  await page.getByRole('radio', { name: 'off' }).check();
  await page.getByLabel('Air around the pot').fill('15');
  await start.tap();

  await page.getByText('No reading of the water yet.').waitFor();
  const [run] = await runs();
  const { burn, marks, weighings } = await detail(run!.id);
  expect([burn.purpose, burn.vesselId, burn.airTempC, burn.status]).toEqual(['cooling', vessel, 15, 'running']);
  expect(marks.map(({ mark }) => mark.kind)).toEqual(['potOff', 'lidOff']);
  expect(weighings.map(({ weighing }) => [weighing.of, weighing.when, weighing.massKg])).toEqual([
    ['water', 'start', 28],
  ]);

  bench.leap(600);
  await read(burn.id, [1, 3, 6, 9]);
  await page.reload();
  await page.getByText(/^10\smin of 30\smin · fallen by 3\.\d/).waitFor();
  await page.getByText('Leave pot, lid and probes alone.').waitFor();
  // Finishing too early gives a warning first.
  await page.getByRole('button', { name: 'Finish' }).tap();
  await page.getByText('Finished now it gives no result').waitFor();
  await fits(page);
  await page.setViewportSize({ width: 844, height: 390 });
  await fits(page);
  await page.getByRole('button', { name: 'Cancel' }).tap();

  bench.leap(1260);
  await read(burn.id, [12, 15, 18, 21, 24, 27, 30]);
  await page.reload();
  await page.getByText('That is enough.').waitFor();
  await page.getByRole('button', { name: 'Finish' }).tap();
  const headline = page.locator('.headline');
  await headline.getByText('Heat the pot loses per kelvin (loss coefficient)').waitFor();
  // Newton's law, worked by hand: (28 kg · 4190 + 3.2 kg of steel · 500 J/(kg·K)) / 10,000 s = 11.9 W/K.
  await headline
    .getByText(/^1[12]\.\d/)
    .first()
    .waitFor();
  await headline.getByText(/ to /).first().waitFor();
  await page.setViewportSize({ width: 390, height: 664 });
  await fits(page);
});

import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Practice } from '../../shared/contract/practice.ts';
import { test } from '../support/browser.ts';
import { PATIENCE_MS } from '../support/patience.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, plugInSimulatedBoard } from './bench-with-page.ts';

test('a practice burn starts on an empty bench, waits to be lit, and is weighed with the readings of the simulated scales', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(bench.url, { width: 390 });
  await page.getByText('The bench is empty.').waitFor();
  await page.getByLabel('30 times faster').check();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('button', { name: 'Begin a practice burn' }).tap();
  await page.getByText('SIMULATED, ×30').waitFor();
  await page.getByText('Not lit yet.').first().waitFor();
  await page.locator('.number .figure').getByText(/^13\./).waitFor();
  const { burnId = '' } = await bench.ask<Practice>('GET', '/practice');
  await page.getByRole('button', { name: /^Lit/ }).tap();
  await page.getByText(/^Rising/).waitFor();
  await bench.ask('POST', `/burns/${burnId}/marks`, { kind: 'fireOut' });
  const scales = page.getByRole('heading', { name: 'What the simulated scales show' });
  await scales.waitFor();
  await page.getByText('Wood left on the pile').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.locator('.thumb .main').tap();
  await page.locator('.weigh-field').first().waitFor();
  await scales.waitFor();
  const { burn } = await bench.ask<BurnDetail>('GET', `/burns/${burnId}`);
  await bench.ask('PATCH', `/burns/${burnId}`, { expectedVersion: burn.version, status: 'ended' });
  const timeScale = async () => (await bench.ask<Practice>('GET', '/practice')).timeScale;
  await expect.poll(timeScale, { timeout: PATIENCE_MS }).toBe(1);
  await scales.waitFor();
});

test('a bench with a board is not shown as empty, and opens the first burn directly', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(bench.url, { width: 390 });
  await page.getByText('The bench is empty.').waitFor();
  await plugInSimulatedBoard(bench, 1);
  await page.getByText('A board is attached').waitFor();
  expect(await page.getByText('The bench is empty.').count()).toBe(0);
  await page.locator('.now-probes').getByText('°C').first().waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('main').getByRole('link', { name: 'New burn' }).first().tap();
  await page.locator('.burn-form').waitFor();
});

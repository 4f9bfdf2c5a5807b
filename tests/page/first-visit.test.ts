import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage } from './bench-with-page.ts';

test('an empty bench offers sample burns and a simulated board, and removes both again', async ({ openPage }) => {
  const bench = await benchWithPage({ timeScale: 20 });
  const page = await openPage(bench.url, { width: 390 });
  await page.getByText('The bench is empty.').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('button', { name: 'Plug in a simulated board' }).tap();
  await page.getByRole('button', { name: 'Remove the simulated board' }).waitFor();
  await page.getByRole('button', { name: 'Add the sample burns' }).tap();
  // The readings of the probes, and the last recorded burn with its curve and its figures, without any action.
  await page.getByText('No fire is being recorded.').waitFor();
  await page.locator('.now-probes').getByText('°C').first().waitFor();
  await page.locator('.last-burn .spark-curve').waitFor();
  await page.locator('.last-burn').getByText('Dry wood per batch').waitFor();
  await page.locator('.last-burn').getByText('Time to target').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.goto(`${bench.url}#/rig`);
  await page
    .getByText(/\bsimulated\b/)
    .first()
    .waitFor();

  await page.goto(`${bench.url}#/settings`);
  await page.getByRole('button', { name: 'Remove the sample burns' }).tap();
  await page.getByRole('button', { name: 'Add the sample burns' }).waitFor();
  await page.getByRole('button', { name: 'Remove the simulated board' }).tap();
  await page.getByRole('button', { name: 'Plug in a simulated board' }).waitFor();
  await page.goto(`${bench.url}#/`);
  await page.getByText('The bench is empty.').waitFor();
  expect(await bench.ask('GET', '/boards')).toEqual({ boards: [] });
});

test('a bench machine without a clock takes the time that a device offers', async ({ openPage }) => {
  const bench = await benchWithPage({ machineUtcMs: 120_000 });
  const page = await openPage(bench.url, { width: 390 });
  await page.getByText('does not know what day it is').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('button', { name: 'Give the bench this time' }).tap();
  await page.getByText('does not know what day it is').waitFor({ state: 'detached' });
  const { clockSource, serviceUtcMs } = await bench.ask<{ clockSource: string; serviceUtcMs: number }>(
    'GET',
    '/health',
  );
  expect(clockSource).toBe('phone');
  expect(new Date(serviceUtcMs).getUTCFullYear()).toBe(new Date().getUTCFullYear());
});

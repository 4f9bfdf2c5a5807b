import { expect } from 'vitest';
import type { Analysis } from '../../shared/contract/results.ts';
import { test } from '../support/browser.ts';
import { benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

test('burns are overlaid at lighting, at their target or at a temperature, and have equal readings there', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const records = await saveHeronBurns(bench, [0, 4, 6]);
  const ids = records.map(({ id }) => id);
  const page = await openPage(`${bench.url}#/overlay/${ids.join('/')}`);
  const timeChart = page.locator('.strip-box');
  await timeChart.waitFor();
  await page.getByText('All start at lighting.').waitFor();
  const reading = async (index: number) =>
    Number.parseFloat((await page.locator('.key-reading').nth(index).textContent()) ?? '');
  const atZero = async () => {
    await timeChart.focus();
    await page.keyboard.press('Home');
    for (let step = 0; step < 200 && (await timeChart.getAttribute('aria-valuenow')) !== '0'; step += 1)
      await page.keyboard.press(
        Number(await timeChart.getAttribute('aria-valuenow')) <= -10 ? 'Shift+ArrowRight' : 'ArrowRight',
      );
    expect(await timeChart.getAttribute('aria-valuenow')).toBe('0');
  };

  // At their targets the first two boil, and the third is at its target of 90 °C.
  const boiling = async (id: string | undefined) => {
    const { results } = await bench.ask<Analysis>('GET', `/burns/${id}/results`);
    const found = results.find((result) => result.id === 'localBoilingPoint');
    return found && 'value' in found ? found.value : Number.NaN;
  };
  await page.getByRole('radio', { name: 'the target' }).check();
  await page.getByText('All meet where they reach their target.').waitFor();
  await atZero();
  for (const index of [0, 1])
    await patiently(() => reading(index)).toBeCloseTo((await boiling(ids[index])) - 0.5, -0.3);
  await patiently(() => reading(2)).toBeCloseTo(90, -0.3);

  await page.getByRole('radio', { name: 'a temperature' }).check();
  await page.getByLabel('Which temperature').fill('72');
  await page.getByText('All meet where the water passes 72\u00a0°C.').waitFor();
  await atZero();
  for (const index of [0, 1, 2]) await patiently(() => reading(index)).toBeCloseTo(72, 0);

  // Above the temperatures reached there is no such moment, and each burn has a remark.
  await page.getByLabel('Which temperature').fill('130');
  await patiently(() => page.getByText('never comes to that moment').count()).toBe(3);
});

test('heating rate, power and flue are below the water, and tracks are per burn or per revision', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const records = await saveHeronBurns(bench, [0, 1, 4]);
  const page = await openPage(`${bench.url}#/overlay/${records.map(({ id }) => id).join('/')}`, { width: 390 });
  const timeChart = page.locator('.strip-box');
  const reported = () => timeChart.getAttribute('aria-valuetext');
  await timeChart.waitFor();
  const heightByBurn = (await timeChart.boundingBox())?.height ?? 0;
  await timeChart.focus();
  await page.keyboard.press('Home');
  for (let step = 0; step < 5; step += 1) await page.keyboard.press('Shift+ArrowRight');
  await patiently(reported).toContain('°C/min');
  await page.getByRole('radio', { name: 'power' }).check();
  await patiently(reported).toContain('kW');
  await page.getByRole('radio', { name: 'flue' }).check();
  await patiently(reported).not.toContain('kW');
  await patiently(reported).toContain('flue');

  await page.getByRole('radio', { name: 'revision', exact: true }).check();
  // Three tracks are now two.
  await patiently(async () => ((await timeChart.boundingBox())?.height ?? 0) < heightByBurn).toBe(true);
  expect(await page.locator('.key-groups h3').allTextContents()).toEqual([' Heron 1', ' Heron 2']);
  // A hidden burn disappears from the readout, the others stay.
  await page.getByRole('checkbox', { name: /\(3\)$/ }).uncheck();
  await patiently(reported).not.toContain('3. ');
  await patiently(reported).toContain('2. ');
});

import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/api.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { test } from '../support/browser.ts';
import { type BenchWithPage, benchWithPage, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/** A burn that has just been stopped, with nothing weighed. */
async function endedBurn(bench: BenchWithPage) {
  const { burn } = await startBurn(bench);
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  const weighings = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).weighings.map(
      ({ weighing }) => weighing as Partial<Weighing>,
    );
  return { burn, weighings };
}

test('what is left is weighed in the order of the yard; char may wait until it is cold', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn, weighings } = await endedBurn(bench);
  const page = await openPage(`${bench.url}#/burns/${burn.id}/wrap-up`, { width: 390 });
  await page.locator('.step').first().waitFor();
  const titles = await page.locator('section:has(#after-title) .step h3').allTextContents();
  expect(titles).toEqual(['Brands', 'Char', 'Ash', 'Wood pile', 'Water']);

  const step = (title: string) =>
    page.locator('section:has(#after-title) .step', { has: page.getByRole('heading', { name: title }) });
  await step('Brands').getByLabel('Mass').fill('0');
  await step('Brands').getByRole('button', { name: 'Save' }).tap();
  await step('Char').getByRole('button', { name: 'Later, when cold' }).tap();
  await step('Char').getByText('to be weighed later').waitFor();
  await step('Wood pile').getByLabel('Mass').fill('1,3');
  await step('Wood pile').getByRole('button', { name: 'Save' }).tap();
  await patiently(async () => (await weighings()).map(({ of, massKg, pending }) => [of, massKg, pending])).toEqual([
    ['brands', 0, undefined],
    ['char', undefined, true],
    ['fuelPile', 1.3, undefined],
  ]);

  // The next day the char is cold: what was pending is completed, not entered twice.
  await step('Char').getByRole('button', { name: 'Change' }).tap();
  await step('Char').getByLabel('Mass').fill('0.24');
  await step('Char').getByRole('button', { name: 'Save' }).tap();
  await patiently(async () => (await weighings()).filter(({ of }) => of === 'char')).toMatchObject([{ massKg: 0.24 }]);
  expect((await weighings()).find(({ of }) => of === 'char')?.pending).toBeUndefined();
});

test('water is taken as mass, as litres or from a dipstick in a vessel of known width', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn, weighings } = await endedBurn(bench);
  const page = await openPage(`${bench.url}#/burns/${burn.id}/wrap-up`, { width: 390 });
  const water = page.locator('section:has(#after-title) .step', { has: page.getByRole('heading', { name: 'Water' }) });
  await water.getByRole('radio', { name: 'By dipstick' }).check();
  await water.getByLabel('Depth').fill('265');
  // π/4 · 0.36² · 0.265 m³
  await water.getByText('that is 27.0\u00a0L').waitFor();
  await water.getByLabel('Temperature when weighed').fill('61');
  await water.getByRole('button', { name: 'Save' }).tap();
  await patiently(async () => (await weighings()).find(({ of }) => of === 'water')).toMatchObject({
    tempC: 61,
    lidOn: true,
  });
  expect((await weighings()).find(({ of }) => of === 'water')?.volumeL).toBeCloseTo(26.974, 3);
});

test('a mass that cannot be is refused with a reason, and what was typed stays', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn, weighings } = await endedBurn(bench);
  const page = await openPage(`${bench.url}#/burns/${burn.id}/wrap-up`);
  const ash = page.locator('section:has(#after-title) .step', { has: page.getByRole('heading', { name: 'Ash' }) });
  for (const [typed, reason] of [
    ['-0.2', 'At least 0.00\u00a0kg.'],
    ['', 'Type a number.'],
    ['0.2 kg', 'This is not a number. Write it like 12.5 or 12,5.'],
    ['1,234', 'One thousand or one point something? Write 1000 or 1.000.'],
  ] as const) {
    await ash.getByLabel('Mass').fill(typed);
    await ash.getByRole('button', { name: 'Save' }).click();
    await ash.getByText(reason).waitFor();
    expect(await ash.getByLabel('Mass').inputValue()).toBe(typed);
  }
  expect(await weighings()).toEqual([]);
  await page.reload();
  await ash.getByLabel('Mass').waitFor();
  expect(await ash.getByLabel('Mass').inputValue()).toBe('1,234');
});

test('a result that misses something says what to enter for it', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn } = await endedBurn(bench);
  const { results } = await bench.ask<Analysis>('GET', `/burns/${burn.id}/results`);
  expect(results.find(({ id }) => id === 'dryWoodPerBatch')).toHaveProperty('missing');
  const page = await openPage(`${bench.url}#/burns/${burn.id}`);
  await page.getByText('Still missing').waitFor();
  const reasons = await page.locator('.missing-list dd').allTextContents();
  expect(reasons.length).toBe(results.filter((result) => 'missing' in result).length);
  for (const reason of reasons) expect(reason).toMatch(/\.$/);
});

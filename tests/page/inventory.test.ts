import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, fillInventory } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

interface Lot {
  id: string;
  name: string;
  version: number;
  moisture?: { fraction: number; basis: string; how: string; standardUncertainty?: number; readings?: number[] };
  heatingValue?: object;
}

const save = (page: Page) => page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).click();

test('readings of a lot show their mean and scatter; editing its name later does not change them', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const lots = async () => (await bench.ask<{ fuelLots: Lot[] }>('GET', '/fuel-lots')).fuelLots;
  const page = await openPage(`${bench.url}#/shelf/fuelLots`);
  await page.getByRole('button', { name: 'Add a lot' }).click();
  const dialog = page.locator('dialog');
  await dialog.getByText('Without moisture the wood results rest on a guess').waitFor();
  await dialog.getByLabel('Name').fill('Oak');
  const readings = dialog.getByLabel('Readings, one after another');
  await readings.fill('18 20');
  await dialog.getByText('Mean 19.0 % of 2 readings, scattered by ±\u202f1.4 %. Three readings or more').waitFor();
  // A meter in whole percents reads the same three times: that is no scatter, and no certainty either.
  await readings.fill('19 19 19');
  await dialog.getByText('Mean 19.0 % of 3 readings, scattered by ±\u202f0.0 %. They do not differ').waitFor();
  // Mean 19, standard deviation 1, of the mean 1/√3: worked by hand.
  await readings.fill('18 20 19');
  await dialog.getByText('Mean 19.0 % of 3 readings, scattered by ±\u202f1.0 %.').waitFor();
  await dialog.getByText('The mean is known to ±\u202f0.6 %.').waitFor();
  expect(await dialog.getByText('Without moisture').count()).toBe(0);
  await dialog.getByRole('radio', { name: '% of the dry weight' }).check();
  await dialog.getByRole('radio', { name: 'meter' }).check();
  await save(page);
  await page.getByText('moisture 19.0 % ±\u202f0.6 % (% of the dry weight), meter').waitFor();
  const [made] = await lots();
  expect(made?.moisture).toMatchObject({ basis: 'dry', how: 'meter' });
  expect(made?.moisture?.standardUncertainty).toBeCloseTo(0.01 / Math.sqrt(3), 9);
  expect(made?.moisture?.readings).toEqual([0.18, 0.2, 0.19]);

  // Another face was measured meanwhile: the earlier readings are available for more.
  await page.getByRole('button', { name: 'Edit Oak' }).click();
  expect(await readings.inputValue()).toBe('18 20 19');
  await readings.fill('18 20 19 21');
  await save(page);
  // A sheet still open when the page is reloaded would open again.
  await dialog.waitFor({ state: 'detached' });
  expect((await lots())[0]?.moisture?.readings).toEqual([0.18, 0.2, 0.19, 0.21]);
  const measured = (await lots())[0] as Lot;

  // Imported: a value of another kind than that of the field, more exact than the field shows.
  const { readings: _r, ...single } = measured.moisture ?? {};
  const exact = { ...single, fraction: 0.190476190476 };
  const gross = { MJPerKg: 20.123456789, basis: 'grossDry', standardUncertaintyMJPerKg: 0.2 };
  const { id: _, version: expectedVersion, ...rest } = measured;
  await bench.ask('PUT', `/fuel-lots/${made?.id}`, { ...rest, moisture: exact, heatingValue: gross, expectedVersion });
  await page.reload();
  await page.getByRole('button', { name: 'Edit Oak' }).click();
  await dialog.getByText('19.0 % is the mean of earlier readings').waitFor();
  await dialog.getByLabel('Name').fill('Oak, split');
  await save(page);
  await patiently(async () => (await lots())[0]).toMatchObject({
    name: 'Oak, split',
    moisture: exact,
    heatingValue: gross,
  });
});

test('a revision is shown next to the one it was made from: photos, every length, differences and their size', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const inventory = await fillInventory(bench);
  const { stoves } = await bench.ask<{ stoves: { id: string }[] }>('GET', '/stoves');
  const stoveId = stoves[0]?.id;
  const page = await openPage(`${bench.url}#/shelf/revisions`, { width: 390 });
  const photoOf = async (data: Buffer) => {
    const answer = await fetch(`${bench.url}api/photos`, {
      method: 'POST',
      headers: { 'content-type': 'image/png' },
      body: new Uint8Array(data),
    });
    return ((await answer.json()) as { photo: string }).photo;
  };
  const photo = await photoOf(await page.screenshot());
  await bench.ask('PUT', `/revisions/${inventory.revision}`, {
    stoveId,
    label: '2',
    photo,
    dimensionsM: { 'riser height': 0.62, 'air gap': 0.012 },
    bodyMassKg: 42,
    expectedVersion: 1,
  });
  await bench.ask('POST', '/revisions', {
    stoveId,
    label: '3',
    parentId: inventory.revision,
    change: 'Riser 40 mm higher.',
    photo: await photoOf(await page.locator('main').screenshot()),
    dimensionsM: { 'riser height': 0.66, 'air gap': 0.012, sleeve: 0.03 },
    bodyMassKg: 40.5,
  });
  await page.reload();
  const siblings = page.locator('.beside-parent');
  await siblings.waitFor();
  const rows = await siblings
    .locator('tbody tr')
    .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  expect(rows.slice(1)).toEqual([
    ['riser height', '62.0\u00a0cm', '66.0\u00a0cm', '+4.0\u00a0cm'],
    ['air gap', '1.2\u00a0cm', '1.2\u00a0cm', '='],
    ['sleeve', '–', '3.0\u00a0cm', ''],
    ['Mass of the stove body', '42.00\u00a0kg', '40.50\u00a0kg', '−1.50\u00a0kg'],
  ]);
  const [older, newer] = await siblings.locator('img').all();
  const [left, right] = [await older?.boundingBox(), await newer?.boundingBox()];
  // Next to each other: the same height on the screen, one to the right of the other.
  expect(left?.y).toBe(right?.y);
  expect(right?.x).toBeGreaterThanOrEqual((left?.x ?? 0) + (left?.width ?? 0));
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
});

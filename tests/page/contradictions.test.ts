import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { expectSound } from './import-files.ts';
import { patiently } from './patiently.ts';

const SMALL = { width: 360, height: 600 };

test('contradictions are listed above the results, and marked at each result that they make doubtful', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const [burn] = await saveHeronBurns(bench, [4], (record) => ({
    ...record,
    weighings: record.weighings.map((weighing) => {
      if (weighing.of === 'water' && weighing.when === 'start') return { ...weighing, tempC: 85 };
      return weighing.of === 'char' && weighing.when === 'end' ? { ...weighing, massKg: 0 } : weighing;
    }),
  }));
  // Computed before the request of the page, which has its usual time limit.
  await bench.ask('GET', `/burns/${burn?.id}/results`);
  const page = await openPage(`${bench.url}#/burns/${burn?.id}`, { width: 390 });
  await page.setViewportSize(SMALL);
  const list = page.locator('.contradictions');
  await list.getByText('The water was weighed at 85.0\u00a0°C, and its probes read').waitFor();
  await list.getByText('No char (0 kg) after').waitFor();
  expect(await list.getByRole('listitem').count()).toBe(2);
  await page.getByRole('button', { name: 'Does not fit together (2)' }).tap();
  const title = list.getByRole('heading', { name: 'Does not fit together' });
  await patiently(async () => ((await title.boundingBox())?.y ?? -1) / SMALL.height).toBeLessThan(0.5);
  const marksOf = async (name: string) =>
    page
      .locator('.result', { has: page.locator('.result-name', { hasText: name }) })
      .first()
      .locator('.contradiction-marks [aria-hidden]')
      .allTextContents();
  expect(await marksOf('Thermal efficiency')).toEqual(['1', '2']);
  expect(await marksOf('Equivalent dry fuel')).toEqual(['2']);
  expect(await marksOf('Local boiling point')).toEqual([]);
  await expectSound(page, 'contradictions');
  await list.getByRole('link', { name: 'Weighings' }).first().tap();
  await page.getByRole('heading', { name: 'Weigh what is left' }).waitFor();
});

test('a basis that meters do not display gives a question at its field, and is stored nevertheless', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/shelf/fuelLots`, { width: 390, language: 'fr' });
  await page.setViewportSize(SMALL);
  await page.getByRole('button', { name: /Ajouter.*lot/ }).tap();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Nom').fill('Hêtre');
  await dialog.getByLabel('Mesures, l’une après l’autre').fill('20');
  await dialog.getByRole('radio', { name: '% de la masse humide' }).check();
  await dialog.getByRole('radio', { name: 'humidimètre' }).check();
  await dialog.getByText('c’est alors 16,7 % de la masse humide').waitFor();
  await expectSound(page, 'moisture');
  await dialog.getByRole('radio', { name: '% de la masse sèche' }).check();
  await dialog.getByText('c’est alors').waitFor({ state: 'detached' });
  await dialog.getByRole('radio', { name: '% de la masse humide' }).check();
  await dialog.getByRole('button', { name: 'Enregistrer' }).tap();
  await dialog.waitFor({ state: 'detached' });
  const { fuelLots } = await bench.ask<{ fuelLots: { moisture: object }[] }>('GET', '/fuel-lots');
  expect(fuelLots[0]?.moisture).toMatchObject({ fraction: 0.2, basis: 'wet', how: 'meter' });
});

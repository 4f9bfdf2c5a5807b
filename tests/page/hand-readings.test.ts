import { expect } from 'vitest';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { HandProbe } from '../../shared/contract/hand-probes.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { type BenchWithPage, benchWithPage, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const timeScale = 20;
/** The browser logs errors for a lost network, as expected. */
const away = [/Failed to load resource/, /net::ERR/];
const dial: HandProbe = {
  id: '019f0000-0000-7000-8000-000000000001',
  name: 'Eau',
  role: 'water',
  unit: 'Cel',
  probe: { kind: 'dial' },
  standardUncertainty: 2 / Math.sqrt(3),
  noiseStandardDeviation: 1 / Math.sqrt(12),
};
const flueDial: HandProbe = { ...dial, id: '019f0000-0000-7000-8000-000000000002', name: 'Fumées', role: 'flue' };

async function burnByHand(probes: readonly HandProbe[] = [dial]) {
  const bench = await benchWithPage({ timeScale });
  for (const probe of probes) await bench.ask('POST', '/hand-probes', probe);
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  return { bench, burn, readings: () => readingsOf(bench, burn.id) };
}

async function readingsOf(bench: BenchWithPage, burnId: string) {
  const { marks } = await bench.ask<BurnDetail>('GET', `/burns/${burnId}`);
  return marks.flatMap(({ mark, withdrawn, version }) =>
    mark.kind === 'reading' ? [{ ...mark, withdrawn, version }] : [],
  );
}

test('in French on a phone: a dial is placed without any board, read with a decimal comma, shown with its ± and age, and withdrawn', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  const page = await openPage(`${bench.url}#/rig`, { width: 390, language: 'fr' });
  await page.getByRole('button', { name: 'Pas de carte : lire soi-même un thermomètre' }).tap();
  const form = page.getByRole('dialog');
  await form.getByLabel('Peut se tromper de').fill('1,5');
  await form.getByLabel('Lue au plus près de').fill('0,5');
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await form.getByRole('button', { name: 'La placer' }).tap();
  await page.getByText('± 1,5 °C, lue à 0,5 °C près').waitFor();
  await page.getByText('Un essai lu à la main se passe de carte.').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);

  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  await page.goto(`${bench.url}#/`);
  await page.getByText('lu à la main', { exact: true }).waitFor();
  await page.getByText('L’eau n’a pas encore été lue.').first().waitFor();
  await page.getByRole('button', { name: /^Lecture/ }).tap();
  for (const key of ['9', '7', ',', '5']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('button', { name: 'Enregistrer 97,5 °C' }).tap();
  await page.locator('.number .figure').getByText('97,5').waitFor();
  // 1.96 times the standard uncertainty of ±1.5 K and half-kelvin steps: 1.96 · hypot(1.5/√3, 0.5/√12).
  await page.locator('.plus-minus').getByText('1,7').waitFor();
  await page.getByText(/l’eau, lue il y a/).waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  const [reading] = await readingsOf(bench, burn.id);
  expect(reading).toMatchObject({ value: 97.5, version: 1, withdrawn: false });

  await page.getByRole('button', { name: 'Annuler « Eau 97,5 °C »' }).tap();
  await page.getByText('L’eau n’a pas encore été lue.').first().waitFor();
  await patiently(async () => (await readingsOf(bench, burn.id)).map(({ withdrawn }) => withdrawn)).toEqual([true]);
});

test('in English on a laptop: a reading is typed with a time of day, corrected in the list, and on the curve at once', async ({
  openPage,
}) => {
  const { bench, burn, readings } = await burnByHand([
    { ...dial, name: 'Water' },
    { ...flueDial, name: 'Flue' },
  ]);
  const page = await openPage(bench.url);
  const sheet = page.getByRole('dialog');
  const read = async (figure: string) => {
    await page.getByRole('button', { name: /^Reading/ }).click();
    await sheet.waitFor();
    await page.keyboard.type(figure);
  };
  await read('41.5');
  await page.keyboard.press('Backspace');
  await page.keyboard.press('Backspace');
  await page.keyboard.type('.0');
  await sheet.getByLabel('10 min ago').check();
  await sheet.getByRole('button', { name: 'Save 41.0 °C' }).click();
  await page.locator('.number .figure').getByText('41.0').waitFor();

  await read('240');
  await sheet.getByLabel('Flue').check();
  // Another dial has another figure.
  expect(await sheet.locator('.feed-mass').textContent()).not.toContain('240');
  await page.keyboard.type('240');
  await sheet.getByRole('button', { name: 'Save 240.0 °C' }).click();

  await read('52');
  await sheet.getByLabel('at…').check();
  await sheet.getByText('Give the time of day').waitFor();
  const { elapsedUs } = await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
  const nowMs = burn.startedUtcMs! + elapsedUs! / 1000;
  const clock = (ms: number) =>
    new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone: burn.zone! }).format(ms);
  await sheet.getByLabel('Time of day it was read').fill(clock(nowMs + 30 * 60_000));
  await sheet.getByText('That time has not come yet').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await sheet.getByLabel('Time of day it was read').fill(clock(nowMs - 4 * 60_000));
  await sheet.getByRole('button', { name: 'Save 52.0 °C' }).click();
  await page.locator('.number .figure').getByText('52.0').waitFor();
  await patiently(async () => (await readings()).map(({ value }) => value).sort()).toEqual([240, 41, 52]);
  const at = (await readings()).find(({ value }) => value === 52)!.elapsedUs / 1000 + burn.startedUtcMs!;
  expect(Math.abs(at - (nowMs - 4 * 60_000))).toBeLessThan(60_000);

  await page.getByRole('button', { name: 'Correct “Water 52.0 °C”' }).click();
  await sheet.getByLabel('Water').fill('530');
  await sheet.getByText('Water lies between −5.0 °C and 110.0 °C.').waitFor();
  await sheet.getByLabel('Water').fill('63');
  await sheet.getByRole('button', { name: 'Save', exact: true }).click();
  await page.locator('.number .figure').getByText('63.0').waitFor();
  await patiently(async () => (await readings()).find(({ value }) => value === 63)?.version).toBe(2);
  // The curve and its table contain both readings of the water.
  await page.locator('.strip-table summary').click();
  // Whole minutes on the straight line from 41 to 63; before the correction it ended at 52.
  await patiently(() => page.locator('.strip-table table').textContent()).toMatch(/(5[3-9]|6[0-3])\.\d/);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
});

test('water at 130 °C gives a question on the form, in the units and the language of the person', async ({
  openPage,
}) => {
  const { bench, readings } = await burnByHand();
  const page = await openPage(`${bench.url}#/settings`, { width: 390, language: 'fr' });
  await page.getByRole('radio', { name: /américaines/ }).check();
  await page.goto(`${bench.url}#/`);
  await page.getByRole('button', { name: /^Lecture/ }).tap();
  const keys = async (figure: string) => {
    for (const key of figure) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  };
  await keys('266');
  await page.getByText('Eau va de 23,0 °F à 230,0 °F.').waitFor();
  expect(await page.getByRole('button', { name: 'Tapez la lecture' }).isDisabled()).toBe(true);
  expect(await page.locator('.feed-mass').textContent()).toContain('266');
  for (let figure = 0; figure < 3; figure++) await page.getByLabel('Effacer le dernier chiffre').tap();
  await keys('207,5');
  await page.getByRole('button', { name: 'Enregistrer 207,5 °F' }).tap();
  await page.locator('.number .figure').getByText('207,5').waitFor();
  await patiently(async () => (await readings())[0]?.value).toBeCloseTo((207.5 - 32) / 1.8, 9);
  const [reading] = await readings();
  const record = await bench.ask<BurnRecord>('GET', `/burns/${reading && (await idOf(bench))}/record`);
  expect(record.readings[0]!.columns[0]!.counts).toEqual([97_500]);
});

async function idOf(bench: BenchWithPage): Promise<string> {
  return (await bench.ask<{ burns: { id: string }[] }>('GET', '/burns')).burns[0]!.id;
}

test('a reading typed while the service is away is shown, waits on the phone, and arrives exactly once with its own time', async ({
  openPage,
}) => {
  const { bench, readings } = await burnByHand();
  const page = await openPage(bench.url, { width: 390, expectedErrors: away });
  await page.getByRole('button', { name: /^Reading/ }).waitFor();
  const type = async (figure: string) => {
    await page.getByRole('button', { name: /^Reading/ }).tap();
    for (const key of figure) await page.locator('.keypad').getByText(key, { exact: true }).tap();
    await page.getByRole('button', { name: `Save ${figure}.0 °C` }).tap();
  };
  await page.context().setOffline(true);
  await page.getByText('The service does not answer.').waitFor();
  await type('62');
  await page.locator('.number .figure').getByText('62.0').waitFor();
  await type('64');
  await page.locator('.number .figure').getByText('64.0').waitFor();
  await page.getByText('2 entries waiting').waitFor();
  // One of them is never sent.
  await page.getByRole('button', { name: 'Undo “Eau 64.0 °C”' }).tap();
  await page.locator('.number .figure').getByText('62.0').waitFor();
  expect(await readings()).toEqual([]);
  const typedBeforeUs = (await bench.ask<BurnDetail>('GET', `/burns/${await idOf(bench)}`)).elapsedUs!;

  await page.context().setOffline(false);
  await page.getByText('1 entry waiting').waitFor({ state: 'detached' });
  await patiently(async () => (await readings()).map(({ value, version }) => [value, version])).toEqual([[62, 1]]);
  expect((await readings())[0]!.elapsedUs).toBeLessThan(typedBeforeUs);
  await page.locator('.plus-minus').waitFor();
});

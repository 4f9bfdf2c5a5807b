import { expect } from 'vitest';
import type { Drift } from '../../shared/contract/comparison.ts';
import type { Prediction } from '../../shared/contract/prediction.ts';
import { test } from '../support/browser.ts';
import { benchWithHeron, benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

async function sleevedHeron() {
  const { bench, records } = await benchWithHeron([4, 5]);
  return { bench, burns: records.map(({ id }) => id), revision: records[0]?.revision?.id };
}

function minutes(seconds: number): string {
  return `${Math.round(seconds / 60)}\u00a0min`;
}

test('the prediction for a load typed with a decimal comma shows its interval, its feeding, its assumptions and its fit', async ({
  openPage,
}) => {
  const { bench, burns, revision } = await sleevedHeron();
  const load = { waterKg: 38.5, contents: [{ massKg: 2, specificHeatJPerKgK: 1360 }], holdDurationS: 1800 };
  const answer = await bench.ask<Prediction>('POST', '/predictions', { burns, load });
  const page = await openPage(`${bench.url}#/compare/load/${revision}`, { width: 390, language: 'fr' });
  await page.getByLabel('Eau', { exact: true }).fill('38,5');
  await page.getByRole('button', { name: 'Ajouter un contenu' }).tap();
  await page.getByLabel('Quoi').selectOption('wool');
  await page.getByLabel('Masse', { exact: true }).fill('2');
  await page.getByLabel('Minutes à tenir').fill('30');
  await page.getByRole('button', { name: 'Que ferait-il' }).tap();
  await page.locator('.prediction').waitFor();
  const { timeToTarget } = answer;
  if (!('value' in timeToTarget)) throw new Error('the burns were meant to answer');
  const sentence = await page.locator('.prediction .verdict-sentence').textContent();
  for (const seconds of [timeToTarget.value, ...timeToTarget.interval90]) expect(sentence).toContain(minutes(seconds));
  expect(await page.locator('.predicted .interval').count()).toBe(4);
  await page.getByText('le rythme de ces essais').waitFor();
  expect(await page.locator('.prediction .remarks li').count()).toBeGreaterThanOrEqual(answer.assumptions.length);
  await page.locator('.fit canvas').waitFor();
  // The predicted course is a curve with its band, on a time chart of its own.
  expect(answer.course.at(-1)?.value).toBeCloseTo(timeToTarget.value, 6);
  expect(await page.locator('.prediction .strip canvas').count()).toBe(2);
  await page.getByText('neuf sur dix passeraient par ici').waitFor();
  // The prediction names its load, and its number of burns.
  await page.setViewportSize({ width: 360, height: 600 });
  const asked = page.locator('.prediction .asked');
  expect((await asked.textContent())?.replace(/\s/g, ' ')).toBe(
    'Question : Eau 38,50 kg · Contenu chauffé avec l’eau 2,00 kg · Minutes à tenir 30. Jugé d’après 2 essais.',
  );
  expect(await page.getByLabel('Essai', { exact: true }).locator('option').count()).toBe(answer.fits.length);
  // Another load: the prediction for the one before disappears, and returns with it.
  await page.getByLabel('Minutes à tenir').fill('45');
  await page.getByText('La question a changé').waitFor();
  expect(await page.locator('.prediction').count()).toBe(0);
  await page.getByLabel('Minutes à tenir').fill('30');
  await asked.waitFor();
});

test('a load that the burns do not support has its prediction below the reasons, and a wrong figure has none', async ({
  openPage,
}) => {
  const { bench, burns, revision } = await sleevedHeron();
  const page = await openPage(`${bench.url}#/compare/load/${revision}`);
  await page.getByLabel('Water', { exact: true }).fill('a lot');
  await page.getByRole('button', { name: 'What would it do?' }).click();
  await page.getByText('This is not a number. Write it like 12.5 or 12,5.').waitFor();
  expect(await page.locator('.wrong-fields button').allTextContents()).toEqual(['Water']);
  expect(await page.locator('.prediction').count()).toBe(0);

  await page.getByLabel('Water', { exact: true }).fill('120');
  await page.getByRole('group', { name: 'Lid on the way there' }).getByRole('radio', { name: 'off' }).check();
  await page.getByRole('button', { name: 'What would it do?' }).click();
  const answer = await bench.ask<Prediction>('POST', '/predictions', { burns, load: { waterKg: 120, lid: 'off' } });
  expect(answer.supported).toBe(false);
  await page.getByText('These burns do not support the question.').waitFor();
  expect(await page.locator('.unsupported li').allTextContents()).toEqual(
    answer.reasons.map(({ sentence }) => sentence),
  );
});

test('prices are stored in the browser, and a batch is priced in wood, gas and electricity', async ({ openPage }) => {
  const { bench, burns } = await sleevedHeron();
  const prices = { woodPerKg: 0.25, batchesPerSeason: 40, electricity: { perKWh: 0.3, efficiency: 0.85 } };
  const { cost } = await bench.ask<{
    cost: { wood: { perBatch: { value: number } }; electricity: { perSeason: number } };
  }>('POST', '/costs', { burns, prices });
  const page = await openPage(`${bench.url}#/compare/cost`);
  await page.getByLabel('Currency').fill('EUR');
  await page.getByLabel('Wood', { exact: true }).fill('0.25');
  await page.getByLabel('Batches per season').fill('40');
  await page.getByRole('group', { name: 'Electricity' }).getByLabel('Price').fill('0.3');
  const table = page.locator('.cost-table');
  // One sentence and one bar for each source of heat come before the figures.
  const season = cost.wood.perBatch.value * 40;
  await patiently(() => page.locator('.verdict-sentence').textContent()).toContain(
    `A season of 40 batches costs about ${season.toFixed(season >= 100 ? 0 : 2)}\u00a0EUR of wood`,
  );
  await patiently(() => page.locator('.cost-bar').count()).toBe(2);
  await patiently(() => table.textContent()).toContain(`${cost.wood.perBatch.value.toFixed(2)}\u00a0EUR`);
  await patiently(() => table.textContent()).toContain(`${cost.electricity.perSeason.toFixed(2)}\u00a0EUR`);
  await page.reload();
  await patiently(() => table.textContent()).toContain(`${cost.wood.perBatch.value.toFixed(2)}\u00a0EUR`);
  expect(await page.getByLabel('Wood', { exact: true }).inputValue()).toBe('0.25');

  // A price per pound is a different number for the same cost.
  await page.goto(`${bench.url}#/settings`);
  await page.getByRole('radio', { name: /US customary/ }).check();
  await page.goto(`${bench.url}#/compare/cost`);
  await page.getByLabel('Wood', { exact: true }).fill(String(0.25 * 0.45359237));
  await patiently(() => table.textContent()).toContain(`${cost.wood.perBatch.value.toFixed(2)}\u00a0EUR`);
});

test('level over time shows every burn between its limits, and dimensions are plotted against results without advice', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const records = await saveHeronBurns(bench, [0, 1, 4, 5, 2]);
  const ids = records.map(({ id }) => id);
  const { level } = await bench.ask<{ level: Drift }>('GET', `/level?burns=${ids.join(',')}`);
  const page = await openPage(`${bench.url}#/compare/level`);
  await page.getByText(level.sentence).waitFor();
  expect(await page.locator('.level-plot .burn-dot').count()).toBe(level.points.length);
  expect(await page.locator('.level-plot .limit').count()).toBe(2);
  // The spoilt burn is listed as not counted, with the reason.
  expect(level.leftOut).toEqual([records[4]?.id]);
  await page
    .locator('.set-aside')
    .getByText(records[4]?.setAsideReason ?? 'no reason')
    .waitFor();
  await page.getByLabel('Result').selectOption('thermalEfficiency');
  await patiently(() => page.locator('.level-page .lead').textContent()).toMatch(/^Thermal efficiency/);

  await page.getByRole('link', { name: 'Dimensions' }).click();
  // A riser 0.15 m across: π/4 · 0.15² = 177 cm²; a gap of 0.02 m around a pot of 0.36 m: π · 0.38 · 0.02 = 239 cm².
  const table = page.locator('.design-table');
  await patiently(() => table.textContent()).toContain('177\u00a0cm²');
  await patiently(() => table.textContent()).toContain('239\u00a0cm²');
  expect(await table.textContent()).toContain('0.74');
  await page.getByText('What it means for the fire is for you to judge.').waitFor();
  await patiently(() => page.locator('.level-plot .burn-dot').count()).toBe(4);
});

import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { type BenchWithPage, benchWithPage, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { weighSheet } from './weighing.ts';

/**
 * Makes a burn of two lots whose fire is out and that still records, with one feed of beech logged and the lid taken
 * off.
 */
async function burntDown(bench: BenchWithPage) {
  const { burn } = await startBurn(bench);
  const beech = burn.fuelLotIds[0];
  const { id: spruce } = await bench.ask<{ id: string }>('POST', '/fuel-lots', { name: 'Spruce', kind: 'kindling' });
  await bench.ask('PATCH', `/burns/${burn.id}`, { fuelLotIds: [beech, spruce], expectedVersion: burn.version });
  for (const mark of [
    { kind: 'lit', elapsedUs: -3600e6 },
    { kind: 'fed', massKg: 0.6, elapsedUs: -3500e6, fuelLotId: beech },
    { kind: 'lidOff', elapsedUs: -600e6 },
    { kind: 'fireOut', elapsedUs: -500e6 },
  ])
    await bench.ask('POST', `/burns/${burn.id}/marks`, mark);
  await bench.ask('POST', `/burns/${burn.id}/weighings`, {
    of: 'fuelPile',
    when: 'start',
    massKg: 5,
    fuelLotId: beech,
  });
  const detail = () => bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
  const weighed = async () =>
    (await detail()).weighings
      .filter(({ withdrawn, weighing }) => !withdrawn && weighing.when === 'end')
      .map(({ weighing }) => weighing as Partial<Weighing>);
  return { burn, beech, spruce, detail, weighed };
}

const url = (bench: BenchWithPage, id: string) => `${bench.url}#/burns/${id}/wrap-up`;

test('all weighings are on one sheet: gross in a stored bucket, each lot, a remark on feeds that contradict the pile, one save', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { burn, beech, spruce, detail, weighed } = await burntDown(bench);
  const page = await openPage(url(bench, burn.id), { width: 390 });
  await page.setViewportSize({ width: 360, height: 600 });
  const sheet = weighSheet(page);
  await sheet.field('Half-burnt wood').waitFor();
  expect(
    await page
      .locator('section:has(#after-title) .weigh-field')
      .evaluateAll((all) => all.map((each) => each.ariaLabel)),
  ).toEqual(['Half-burnt wood', 'Char', 'Ash', 'Wood pile: Beech, split', 'Wood pile: Spruce', 'Water']);
  expect(await page.getByRole('button', { name: 'Save', exact: true }).count()).toBe(1);
  expect(await page.getByRole('radio', { name: 'stops recording, all is weighed' }).count()).toBe(1);

  await page.getByLabel('Empty bucket').fill('0,85');
  await sheet.field('Wood pile: Beech, split').fill('2.85');
  await sheet.tick('Wood pile: Beech, split', 'in the bucket').check();
  await sheet.group('Wood pile: Beech, split').getByText('net 2.00\u00a0kg').waitFor();
  await sheet.field('Wood pile: Spruce').fill('0');
  await page.getByText('5.00\u00a0kg before − 2.00\u00a0kg left = 3.00\u00a0kg').waitFor();
  await page.getByText('3.00\u00a0kg gone from the pile, 0.60\u00a0kg entered as fed: one of them is wrong.').waitFor();
  await sheet.field('Half-burnt wood').fill('0,5');
  await sheet.tick('Half-burnt wood', 'in the bucket').check();
  await sheet.field('Half-burnt wood', 'Its moisture, if measured').fill('12 14');
  await sheet.field('Water', 'Mass').fill('27');
  // By the marks the lid is off.
  expect(await sheet.tick('Water', /^The lid stayed on/).isChecked()).toBe(false);
  await sheet.tick('Char', 'later, when cold').check();
  // While char is pending, "all is weighed" is not offered, and a sentence says that recording stops.
  expect(await page.getByRole('radio', { name: /all is weighed/ }).count()).toBe(0);
  expect(await page.getByRole('radio', { name: 'stops recording, the rest is weighed later' }).isChecked()).toBe(true);
  await page.getByText('The char is still to be weighed: until then the burn is not complete.').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);

  await sheet.save();
  await sheet.group('Half-burnt wood').getByText('Lighter than its empty container.').waitFor();
  expect([await sheet.field('Half-burnt wood').inputValue(), await weighed()]).toEqual(['0,5', []]);
  await sheet.field('Half-burnt wood').fill('0,95');
  // The basis is required where there is a figure, and not guessed.
  await sheet.save();
  await sheet.group('Half-burnt wood').getByRole('radio', { name: /dry/ }).first().check();
  const sent: string[] = [];
  page.on('request', (request) => request.method() !== 'GET' && sent.push(request.method() + request.url().slice(-9)));
  await sheet.save();
  await page.locator('.weighings').getByText('to be weighed later').waitFor();
  expect(sent).toEqual(['POST/weigh-up']);
  expect(
    (await weighed()).map(({ of, massKg, tareKg, pending, fuelLotId, lidOn }) => [
      of,
      massKg,
      tareKg,
      pending,
      fuelLotId,
      lidOn,
    ]),
  ).toEqual([
    ['brands', 0.1, 0.85, undefined, undefined, undefined],
    ['char', undefined, undefined, true, undefined, undefined],
    ['fuelPile', 2, 0.85, undefined, beech, undefined],
    ['fuelPile', 0, undefined, undefined, spruce, undefined],
    ['water', 27, undefined, undefined, undefined, false],
  ]);
  expect((await weighed()).find(({ of }) => of === 'brands')?.moisture).toEqual({
    fraction: 0.13,
    basis: 'dry',
    how: 'meter',
    readings: [0.12, 0.14],
  });
  expect((await detail()).burn.status).toBe('ended');
  expect(await page.getByRole('button', { name: 'Mark as complete' }).count()).toBe(0);

  // The next day the char is cold: the pending weighing is completed, gross again, and with it the burn.
  await page.getByRole('link', { name: 'Weigh what is left' }).first().click();
  await sheet.tick('Char', 'later, when cold').uncheck();
  expect(await page.getByLabel('Empty bucket').inputValue()).toBe('0.85');
  expect(await sheet.field('Wood pile: Beech, split').inputValue()).toBe('2.85');
  await sheet.field('Char').fill('1.09');
  await sheet.tick('Char', 'in the bucket').check();
  expect(await page.getByRole('radio', { name: 'is complete, all is weighed' }).isChecked()).toBe(true);
  await sheet.save();
  await patiently(async () => (await detail()).burn.status).toBe('complete');
  expect((await weighed()).filter(({ of }) => of === 'char')).toMatchObject([{ massKg: 0.24, tareKg: 0.85 }]);
  expect((await weighed()).find(({ of }) => of === 'char')?.pending).toBeUndefined();
});

test('nothing is shown as saved before the service has it; a refusal is shown at its field, and a correct figure removes it', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { burn, weighed } = await burntDown(bench);
  const page = await openPage(url(bench, burn.id), { width: 390, expectedErrors: [/status of 400/] });
  await page.setViewportSize({ width: 360, height: 600 });
  const sheet = weighSheet(page);
  const [pile, notice] = [sheet.field('Wood pile: Beech, split'), page.locator('.notice')];
  await sheet.field('Ash').fill('0.2');
  await pile.fill('5.4');
  let received: (letGo: () => void) => void = () => undefined;
  const underWay = new Promise<() => void>((resolve) => {
    received = resolve;
  });
  await page.route('**/weigh-up', async (route) => {
    await new Promise<void>((letGo) => received(letGo));
    await route.continue();
  });
  await sheet.save();
  await page.getByRole('button', { name: 'Sending…' }).waitFor();
  const letGo = await underWay;
  expect(await notice.textContent()).toBe('');
  letGo();
  const refused = page.locator('.field.wrong', { has: page.getByRole('textbox', { name: 'Wood pile: Beech, split' }) });
  await refused.getByText('More is left than was brought: 5.40\u00a0kg of 5.00\u00a0kg.').waitFor();
  expect([await pile.inputValue(), await notice.textContent(), await weighed()]).toEqual(['5.4', '', []]);
  await page.unroute('**/weigh-up');

  // After leaving and returning, the refusal and the typed text are there again.
  await page.reload();
  await refused.getByText('More is left than was brought').waitFor();
  expect([await pile.inputValue(), await sheet.field('Ash').inputValue()]).toEqual(['5.4', '0.2']);
  await pile.fill('4.4');
  await refused.waitFor({ state: 'detached' });
  await sheet.save();
  await notice.getByText('All of it is saved.').waitFor();
  expect((await weighed()).map(({ of, massKg }) => [of, massKg])).toEqual([
    ['ash', 0.2],
    ['fuelPile', 4.4],
  ]);
  expect(await page.locator('.banner.refused').count()).toBe(0);
});

test('water is entered as mass in its pot, as litres or from a dipstick in a vessel of known width; impossible figures stay in the field', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { burn, weighed } = await burntDown(bench);
  const page = await openPage(url(bench, burn.id), { width: 390 });
  const sheet = weighSheet(page);
  await sheet.field('Water', 'Mass').fill('30.2');
  await sheet.tick('Water', 'in the pot (3.20\u00a0kg without lid)').check();
  await sheet.group('Water').getByText('net 27.00\u00a0kg').waitFor();
  await sheet.group('Water').getByRole('radio', { name: 'By dipstick' }).check();
  await sheet.field('Water', 'Depth').fill('265');
  // π/4 · 0.36² · 0.265 m³
  await sheet.group('Water').getByText('that is 27.0\u00a0L').waitFor();
  await sheet.field('Water', 'Temperature when weighed').fill('61');
  for (const [typed, reason] of [
    ['-0.2', 'At least 0.00\u00a0kg.'],
    ['0.2 kg', 'This is not a number. Write it like 12.5 or 12,5.'],
    ['1,234', 'One thousand or one point something? Write 1000 or 1.000.'],
  ] as const) {
    await sheet.field('Ash').fill(typed);
    await sheet.save();
    await sheet.group('Ash').getByText(reason).waitFor();
    expect(await sheet.field('Ash').inputValue()).toBe(typed);
  }
  expect(await weighed()).toEqual([]);
  await page.reload();
  await sheet.field('Ash').waitFor();
  expect(await sheet.field('Ash').inputValue()).toBe('1,234');
  await sheet.field('Ash').fill('');
  await sheet.save();
  await patiently(async () => (await weighed()).length).toBe(1);
  const [water] = await weighed();
  expect(water).toMatchObject({ of: 'water', tempC: 61, lidOn: false });
  expect(water?.volumeL).toBeCloseTo(26.974, 3);

  // Emptied again, it is withdrawn.
  await page.locator('.notice').getByText('All of it is saved.').waitFor();
  await page.goto(url(bench, burn.id));
  await sheet.field('Water', 'As litres').fill('');
  await sheet.field('Water', 'Temperature when weighed').fill('');
  await sheet.save();
  await patiently(weighed).toEqual([]);
});

test('a result with missing data shows what to enter for it', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench);
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  const { results } = await bench.ask<Analysis>('GET', `/burns/${burn.id}/results`);
  expect(results.find(({ id }) => id === 'dryWoodPerBatch')).toHaveProperty('missing');
  const page = await openPage(`${bench.url}#/burns/${burn.id}`);
  await page.getByText(/^Results that are not known/).click();
  await page.locator('.missing-list').waitFor();
  const reasons = await page.locator('.missing-list dd').allTextContents();
  expect(reasons.length).toBe(results.filter((result) => 'missing' in result).length);
  for (const reason of reasons) expect(reason).toMatch(/\.$/);
});

import { expect } from 'vitest';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithHeron } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { inkPixels, timeChartHand } from './time-chart.ts';

async function oneBurn() {
  const { bench, records } = await benchWithHeron([4]);
  const [record] = records;
  if (!record) throw new Error('a burn was wanted');
  const inForce = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${record.id}`)).exclusions
      .filter(({ withdrawn }) => !withdrawn)
      .map(({ exclusion }) => exclusion);
  return { bench, record, inForce };
}

function channelOf({ channels }: BurnRecord, name: string): string {
  return channels.find((channel) => channel.name === name)?.id ?? '';
}

function minutesFromLit({ marks }: BurnRecord, elapsedUs: number): number {
  return (elapsedUs - (marks.find(({ kind }) => kind === 'lit')?.elapsedUs ?? 0)) / 60e6;
}

test('a stretch selected on the time chart is excluded from curves and results, listed, on record, and used again on request', async ({
  openPage,
}) => {
  const { bench, record, inForce } = await oneBurn();
  const excludedShare = async () =>
    (await bench.ask<Analysis>('GET', `/burns/${record.id}/results`)).excludedShare[channelOf(record, 'flue')] ?? 0;
  const before = await excludedShare();
  const page = await openPage(`${bench.url}#/burns/${record.id}`);
  await page.locator('.result.primary').waitFor();
  await page.getByRole('button', { name: 'Leave out a stretch' }).click();
  const timeChart = await timeChartHand(page);
  const whole = await inkPixels(page, 'flue');

  const [from, to] = [await timeChart.at(30, 60), await timeChart.at(60, 60)];
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(to.x, to.y, { steps: 4 });
  await page.mouse.up();
  const minutes = page.locator('.leave-out').getByLabel(/minute$/);
  expect(Number(await minutes.first().inputValue())).toBeCloseTo(30, 0);
  expect(Number(await minutes.last().inputValue())).toBeCloseTo(60, 0);
  await page.getByLabel('Probe', { exact: true }).selectOption({ label: 'flue' });
  await page.getByLabel('Why?').fill('the lead was pulled');
  const curves = page.waitForRequest((request) => request.url().includes('/series'));
  const results = page.waitForRequest((request) => request.url().includes('/results'));
  await page.getByRole('button', { name: 'Leave it out' }).click();
  await Promise.all([curves, results]);

  await page.locator('.last-change').getByText('Left out: flue, ').waitFor();
  const [stored] = await inForce();
  expect(stored).toMatchObject({ channelId: channelOf(record, 'flue'), reason: 'the lead was pulled' });
  expect(minutesFromLit(record, stored?.fromUs ?? 0)).toBeCloseTo(30, 0);
  expect(minutesFromLit(record, stored?.toUs ?? 0)).toBeCloseTo(60, 0);
  // Half an hour of less than two hours of readings.
  expect((await excludedShare()) - before).toBeGreaterThan(0.2);
  // The curve is pale there (that of the riser is not), and the cursor shows why.
  await patiently(() => inkPixels(page, 'flue')).toBeLessThan(whole - 50);
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'start' }));
  const middle = await timeChart.at(45, 60);
  await page.mouse.move(middle.x, middle.y);
  expect(await page.locator('.strip-readout').textContent()).toMatch(/flue \d+\s°C \(left out\)/);
  await page.locator('.exclusions').getByText('the lead was pulled', { exact: false }).first().waitFor();
  expect(await complaints(page)).toEqual([]);

  await page.locator('.last-change').getByRole('button', { name: 'Undo' }).click();
  await page.locator('.exclusions').waitFor({ state: 'detached' });
  await patiently(inForce).toEqual([]);
  await patiently(() => inkPixels(page, 'flue')).toBe(whole);
  const { edits } = await bench.ask<{ edits: { what: string; before: unknown; after: unknown }[] }>(
    'GET',
    `/burns/${record.id}/edits`,
  );
  expect(edits).toContainEqual(
    expect.objectContaining({
      what: 'exclusion',
      before: expect.objectContaining({ reason: stored?.reason }),
      after: null,
    }),
  );
});

test('on a phone two taps select the stretch, in French with its comma, and a reload in between loses nothing', async ({
  openPage,
}) => {
  const { bench, record, inForce } = await oneBurn();
  const page = await openPage(`${bench.url}#/burns/${record.id}`, { width: 390, language: 'fr' });
  await page.getByRole('button', { name: 'Écarter un passage' }).tap();
  let timeChart = await timeChartHand(page);
  const first = await timeChart.at(80, 60);
  await page.touchscreen.tap(first.x, first.y);
  const minutes = page.locator('.leave-out').getByLabel(/minute$/);
  await patiently(() => minutes.first().inputValue()).toMatch(/^(79|80),\d$/);
  await page.getByLabel('Pourquoi').fill('vapeur sur la sonde');

  await page.reload();
  await page.locator('.leave-out').waitFor();
  expect(await minutes.first().inputValue()).toMatch(/^(79|80),\d$/);
  expect(await page.getByLabel('Pourquoi').inputValue()).toBe('vapeur sur la sonde');
  // The second end may be before the first.
  timeChart = await timeChartHand(page);
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'start' }));
  const second = await timeChart.at(70, 60);
  await page.touchscreen.tap(second.x, second.y);
  await patiently(() => minutes.last().inputValue()).toMatch(/^(79|80),\d$/);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('button', { name: 'L’écarter' }).tap();
  await page.locator('.last-change').getByText('Écarté').waitFor();
  const [stored] = await inForce();
  expect(stored?.channelId).toBe(record.channels[0]?.id);
  expect(minutesFromLit(record, stored?.fromUs ?? 0)).toBeCloseTo(70, 0);
  await page.getByRole('button', { name: /^Utiliser de nouveau/ }).tap();
  await patiently(inForce).toEqual([]);
});

test('the keyboard selects a stretch as well; an invalid one is refused at its field', async ({ openPage }) => {
  const { bench, record, inForce } = await oneBurn();
  const page = await openPage(`${bench.url}#/burns/${record.id}`);
  await page.getByRole('button', { name: 'Leave out a stretch' }).focus();
  await page.keyboard.press('Enter');
  const form = page.locator('.leave-out');
  await form.getByRole('button', { name: 'Leave it out' }).click();
  await form.getByText('Type a number.').nth(1).waitFor();
  await form.getByText('Write something here.').waitFor();
  await form.getByLabel('From minute').fill('40');
  await form.getByLabel('to minute').fill('39,5');
  await form.getByText('The end comes after the start.').waitFor();
  await form.getByLabel('to minute').fill('3o');
  await form.getByText('This is not a number.').waitFor();
  expect(await inForce()).toEqual([]);

  const { slider } = await timeChartHand(page);
  await slider.focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Enter');
  for (let press = 0; press < 3; press += 1) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await form.getByLabel('Why?').fill('stirred');
  await page.keyboard.press('Enter');
  await page.locator('.last-change').getByText('Left out').waitFor();
  const [stored] = await inForce();
  expect(((stored?.toUs ?? 0) - (stored?.fromUs ?? 0)) / 60e6).toBeCloseTo(3, 9);
});

test('one button restores a mark moved, corrected or withdrawn on the page of a burn', async ({ openPage }) => {
  const { bench, record } = await oneBurn();
  const fed = record.marks.filter(({ kind }) => kind === 'fed')[3];
  if (!fed) throw new Error('the burn has fewer than four feeds');
  const now = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${record.id}`)).marks.find(({ mark }) => mark.id === fed.id);
  const page = await openPage(`${bench.url}#/burns/${record.id}`, { width: 390 });
  await page.locator('.result.primary').waitFor();
  const timeChart = await timeChartHand(page);
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'end' }));
  const minute = minutesFromLit(record, fed.elapsedUs);
  const [from, to] = [await timeChart.at(minute, -20), await timeChart.at(minute + 9, -20)];
  await timeChart.touch([from, { ...from, x: (from.x + to.x) / 2 }, to]);
  await page.locator('.last-change').getByText('moved from').waitFor();
  expect(((await now())?.mark.elapsedUs ?? 0) - fed.elapsedUs).toBeGreaterThan(7 * 60e6);
  // A browser treats a tap right after a drag as the end of the drag.
  await page.locator('.last-change').getByRole('button', { name: 'Undo' }).click();
  await patiently(now).toMatchObject({ mark: { elapsedUs: fed.elapsedUs }, withdrawn: false });

  const nth = record.marks.findIndex(({ id }) => id === fed.id);
  await page.locator('.log li').nth(nth).getByRole('button').tap();
  await page.locator('dialog').getByRole('button', { name: 'Take this mark back' }).tap();
  await page.locator('.last-change').getByText('taken back.').waitFor();
  await patiently(now).toMatchObject({ withdrawn: true });
  await page.locator('.last-change').getByRole('button', { name: 'Undo' }).tap();
  await patiently(now).toMatchObject({ mark: { elapsedUs: fed.elapsedUs }, withdrawn: false });

  // Correcting the words does not change the precision of the moment.
  await page.locator('.log li').nth(nth).getByRole('button').tap();
  await page.locator('dialog').getByLabel('Note').fill('with bark');
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('.last-change').getByText('corrected.').waitFor();
  expect(await now()).toMatchObject({ mark: { ...fed, note: 'with bark' } });
});

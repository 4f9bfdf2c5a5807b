import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { test } from '../support/browser.ts';
import { benchWithHeron } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { inkPixels, timeChartHand } from './time-chart.ts';

/** One burn of each revision. */
async function twoBurns() {
  const { bench, records } = await benchWithHeron([4, 0]);
  const [sleeved, bare] = records;
  if (!sleeved || !bare) throw new Error('two burns were wanted');
  return { bench, bare, sleeved };
}

/** A burn of the second revision. */
async function oneBurn() {
  const { bench, records } = await benchWithHeron([4]);
  const [sleeved] = records;
  if (!sleeved) throw new Error('a burn was wanted');
  return { bench, sleeved };
}

test('the list shows every burn with its curve, revision and status, and overlays selected ones', async ({
  openPage,
}) => {
  const { bench, bare, sleeved } = await twoBurns();
  const page = await openPage(`${bench.url}#/burns`);
  await page.locator('.burn-line').nth(1).waitFor();
  expect(await page.locator('.burn-title').allTextContents()).toEqual([sleeved.title, bare.title]);
  const names = await page.locator('.burn-group h2').allTextContents();
  expect(names.map((name) => name.slice(0, 7))).toEqual(['Heron 2', 'Heron 1']);
  expect(await page.locator('.burn-status').allTextContents()).toEqual(['complete', 'complete']);
  await patiently(() => page.locator('.spark-curve').count()).toBe(2);

  // Each with its figures, as computed by the service, on common scales; and the mean of its revision.
  const { results } = await bench.ask<Analysis>('GET', `/burns/${sleeved.id}/results`);
  const wood = results.find(({ id }) => id === 'dryWoodPerBatch');
  if (!wood || !('value' in wood)) throw new Error('the burn has no dry wood per batch');
  await patiently(() => page.locator('.burn-line .bar-interval').count()).toBe(6);
  for (const place of ['.burn-line', '.group-head'])
    expect(await page.locator(`${place} .dryWoodPerBatch b`).first().textContent()).toBe(
      `${wood.value.toFixed(2)}\u00a0kg`,
    );

  const lay = page.getByRole('button', { name: 'Curves together' });
  const boxes = await page.locator('.burn-line input[type=checkbox]').all();
  await boxes[0]?.check();
  expect(await lay.isDisabled()).toBe(true);
  for (const box of boxes) await box.check();
  await lay.click();
  await page.getByText('All start at lighting.').waitFor();
  await patiently(() => inkPixels(page, 'water')).toBeGreaterThan(200);
  await patiently(() => inkPixels(page, 'flue')).toBeGreaterThan(100);
  await page.locator('.beside tbody tr').first().waitFor();
  expect(await page.locator('.beside tbody tr.primary th').textContent()).toBe('Dry wood per batch');
  // A burn can be hidden; the other stays.
  await page
    .getByRole('checkbox', { name: `Show ${sleeved.title}` })
    .first()
    .uncheck();
  await patiently(() => inkPixels(page, 'water')).toBe(0);
});

test('a result shows the value of the service and unfolds into its working', async ({ openPage }) => {
  const { bench, sleeved } = await oneBurn();
  const { results } = await bench.ask<Analysis>('GET', `/burns/${sleeved.id}/results`);
  const wood = results.find(({ id }) => id === 'dryWoodPerBatch');
  if (!wood || !('value' in wood)) throw new Error('the burn has no dry wood per batch');
  const page = await openPage(`${bench.url}#/burns/${sleeved.id}`);
  const line = page.locator('.result.primary');
  await line.waitFor();
  expect(await line.locator('.result-value').textContent()).toBe(`${wood.value.toFixed(2)}\u00a0kg`);
  await line.locator('summary').click();
  await line.getByText('Formula', { exact: true }).waitFor();
  expect(await line.locator('.formula').textContent()).toBe(wood.working.formula);
  expect(await line.getByText('What makes it uncertain').count()).toBe(1);
  // A value at the very end of its interval has a remark that this is no mistake; the others have none.
  const atLowEnd = 'What is uncertain about it would mostly raise it.';
  expect(await page.locator('.result', { hasText: atLowEnd }).locator('.result-name').allTextContents()).toEqual([
    'Recovery after a feed',
  ]);
  // Another method set changes the results, and lists those that it leaves out.
  await page.getByLabel('Method').selectOption('water-boil-4');
  await patiently(() => page.locator('.missing-list dt').count()).toBeGreaterThan(3);
  await page.getByLabel('Method').selectOption('bench-1');
  // A missing result shows why.
  await page.getByText(/^Results that are not known/).click();
  await page.locator('.missing-list').waitFor();
  expect(await page.locator('.missing-list').textContent()).toContain('Stack loss');
});

test('the cursor reads all channels, by keyboard as well, and the chart exists as a table', async ({ openPage }) => {
  const { bench, sleeved } = await oneBurn();
  const page = await openPage(`${bench.url}#/burns/${sleeved.id}`);
  const slider = page.getByRole('slider');
  await slider.focus();
  await page.keyboard.press('Home');
  for (let press = 0; press < 3; press += 1) await page.keyboard.press('Shift+ArrowRight');
  const spoken = await slider.getAttribute('aria-valuetext');
  expect(spoken).toMatch(/at \d+\smin, water \d+\.\d\s°C/);
  await page.locator('.strip-readout').getByText('flue').waitFor();
  await page.getByText('The chart as a table').click();
  await page.locator('.strip-table tbody tr').first().waitFor();
  const rows = await page.locator('.strip-table tbody tr').count();
  expect(rows).toBeGreaterThan(10);
  expect(rows).toBeLessThanOrEqual(26);
});

test('zooming stays within the burn, fetches a finer curve and returns to the whole', async ({ openPage }) => {
  const { bench, sleeved } = await oneBurn();
  const page = await openPage(`${bench.url}#/burns/${sleeved.id}`);
  const slider = page.getByRole('slider');
  await slider.waitFor();
  const whole = [await slider.getAttribute('aria-valuemin'), await slider.getAttribute('aria-valuemax')].map(Number);
  const finer = page.waitForRequest((request) => request.url().includes('&from='));
  await page.getByRole('button', { name: 'Closer' }).click();
  await finer;
  const near = [await slider.getAttribute('aria-valuemin'), await slider.getAttribute('aria-valuemax')].map(Number);
  expect((near[1] ?? 0) - (near[0] ?? 0)).toBeLessThan(((whole[1] ?? 0) - (whole[0] ?? 0)) * 0.6);
  await page.getByRole('button', { name: 'Whole burn' }).click();
  await patiently(async () => Number(await slider.getAttribute('aria-valuemax'))).toBe(whole[1]);
});

test('a mark dragged along its track is corrected, the results follow, and the change is on record', async ({
  openPage,
}) => {
  const { bench, sleeved } = await oneBurn();
  const page = await openPage(`${bench.url}#/burns/${sleeved.id}`);
  const fed = sleeved.marks.filter(({ kind }) => kind === 'fed')[3];
  if (!fed) throw new Error('the burn has fewer than four feeds');
  await page.locator('.result.primary').waitFor();
  const timeChart = await timeChartHand(page);
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'end' }));
  const lit = sleeved.marks.find(({ kind }) => kind === 'lit');
  if (!lit) throw new Error('no lighting');
  const minute = (fed.elapsedUs - lit.elapsedUs) / 60e6;
  const minutesMoved = 4;
  const { x, y } = await timeChart.at(minute, -20);
  const to = await timeChart.at(minute + minutesMoved, -20);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(to.x, y, { steps: 4 });
  await page.mouse.up();
  await patiently(async () => {
    const { marks } = await bench.ask<{ marks: { mark: { id: string; elapsedUs: number } }[] }>(
      'GET',
      `/burns/${sleeved.id}`,
    );
    const now = marks.find(({ mark }) => mark.id === fed.id)?.mark.elapsedUs ?? 0;
    return (now - fed.elapsedUs) / 60e6;
  }).toBeCloseTo(minutesMoved, 0);
  await page.getByText('Changes', { exact: true }).click();
  await page.locator('.edit-list li').first().waitFor();
  expect(await page.locator('.edit-list').textContent()).toContain('elapsedUs');
});

test('a finished burn shows its results large, where its heat went, and itself among the burns of its stove', async ({
  openPage,
}) => {
  const { bench, sleeved } = await twoBurns();
  const analysis = await bench.ask<Analysis>('GET', `/burns/${sleeved.id}/results`);
  const page = await openPage(`${bench.url}#/burns/${sleeved.id}`, { width: 390 });
  const headline = page.locator('.headline');
  await headline.getByText('Dry wood per batch').waitFor();
  await patiently(() => headline.locator('dd b').allTextContents()).not.toContain('\u00a0 ');
  expect(await headline.locator('dt').allTextContents()).toEqual([
    'Dry wood per batch',
    'Time to target',
    'Thermal efficiency',
    'Mean useful power',
  ]);

  // The printed parts add up to the printed heat of the fuel.
  const heat = page.locator('.heat');
  await heat.locator('.heat-band').nth(4).waitFor();
  const megajoules = async (place: string) =>
    (await heat.locator(place).allTextContents()).map((text) => Number.parseFloat(text));
  const [fuel] = await megajoules('> p b');
  const parts = await megajoules('dd b');
  expect(parts).toHaveLength(5);
  expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(fuel!, 6);
  expect(fuel).toBeCloseTo(analysis.heat![0]!.MJ, 1);

  const siblings = page.locator('.siblings figure').first();
  await siblings.locator('.this-burn').waitFor();
  expect(await siblings.locator('.point-interval').count()).toBe(2);
  await siblings.getByRole('img', { name: /this burn/ }).waitFor();
});

test('the working of a result leads to its printed figure, and each of its figures links to where it was entered', async ({
  openPage,
}) => {
  const { bench, sleeved } = await oneBurn();
  const page = await openPage(`${bench.url}#/burns/${sleeved.id}`);
  const line = page.locator('.result.primary');
  await line.locator('summary').click();
  const worked = line.locator('.worked li');
  await worked.nth(1).waitFor();
  const shown = await line.locator('.result-value').textContent();
  expect(await worked.last().locator('b').textContent()).toBe(shown);
  expect(await worked.last().textContent()).toContain('MJ/kg');
  // By share of the variance, the largest first.
  const shares = (await line.locator('.budget .share-text').allTextContents()).map((text) => Number.parseFloat(text));
  expect(shares).toEqual([...shares].sort((a, b) => b - a));
  await worked.last().getByRole('link', { name: 'Heating value of the dry wood' }).click();
  await page.locator('.inventory-item').first().waitFor();
  expect(new URL(page.url()).hash).toBe('#/shelf/fuelLots');
});

test('a burn that is not weighed shows what to do, once, with the results that depend on it', async ({ openPage }) => {
  const { bench, sleeved } = await oneBurn();
  const { burn, weighings } = await bench.ask<BurnDetail>('GET', `/burns/${sleeved.id}`);
  for (const { weighing, version } of weighings)
    if (weighing.when === 'end')
      await bench.ask('DELETE', `/burns/${burn.id}/weighings/${weighing.id}?expectedVersion=${version}`);
  await bench.ask('PATCH', `/burns/${burn.id}`, { expectedVersion: burn.version, status: 'ended' });
  const page = await openPage(`${bench.url}#/burns/${burn.id}`, { width: 390 });
  const steps = page.locator('.to-do li');
  await steps.first().waitFor();
  expect(await steps.count()).toBe(1);
  expect(await steps.first().textContent()).toContain('Dry wood per batch');
  expect(await page.getByRole('link', { name: 'Weigh what is left' }).count()).toBe(1);
  expect(await page.locator('.missing-list').isVisible()).toBe(false);
  await page.getByRole('link', { name: 'Weigh what is left' }).tap();
  await page.locator('.weigh-field').first().waitFor();
});

test('the curve and its marks do not move when the results arrive', async ({ openPage }) => {
  const { bench, sleeved } = await oneBurn();
  const page = await openPage('about:blank', { width: 390 });
  let release = () => {};
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route(/\/results/, async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(`${bench.url}#/burns/${sleeved.id}`);
  const chart = page.locator('.strip canvas').first();
  await chart.waitFor();
  await patiently(() => inkPixels(page, 'water')).toBeGreaterThan(100);
  const place = async () => {
    const box = await chart.boundingBox();
    return [box?.y, box?.height];
  };
  const before = await place();
  expect(await page.locator('.headline b').first().textContent()).not.toContain('kg');
  release();
  await page.locator('.headline b', { hasText: 'kg' }).waitFor();
  await page.locator('.heat-band').first().waitFor();
  expect(await place()).toEqual(before);
});

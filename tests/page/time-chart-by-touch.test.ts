import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { test } from '../support/browser.ts';
import { overflow } from './accessible.ts';
import { benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { atRest, timeChartHand } from './time-chart.ts';

const gapUs = { fromUs: 2400e6, toUs: 3000e6 } as const;

/** Ten minutes in which the board was silent, without any scan fetched later. */
function silent(record: BurnRecord): BurnRecord {
  const outside = (at: number) => at < gapUs.fromUs || at > gapUs.toUs;
  return {
    ...record,
    gaps: [{ ...gapUs, cause: 'silent' }],
    readings: record.readings.map(({ columns, elapsedUs, sequence: _s, boot: _b, ...rest }) => ({
      ...rest,
      elapsedUs: elapsedUs.filter(outside),
      columns: columns.map(({ channelId, counts }) => ({
        channelId,
        counts: counts.filter((_, index) => outside(elapsedUs[index] ?? 0)),
      })),
    })),
  };
}

async function onPhone(openPage: (url: string, options: { width: 390 }) => Promise<Page>) {
  const bench = await benchWithPage();
  const [record] = await saveHeronBurns(bench, [4], silent);
  if (!record) throw new Error('a burn was wanted');
  const page = await openPage(`${bench.url}#/burns/${record.id}`, { width: 390 });
  const timeChart = await timeChartHand(page);
  // Above the track there must be room for the finger, below it for the scroll.
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  return { bench, record, page, timeChart };
}

test('on a phone two fingers zoom and pan, one reads every channel, and a scroll or a pinch does not move a mark', async ({
  openPage,
}) => {
  const { page, timeChart, record } = await onPhone(openPage);
  const whole = await timeChart.range();
  const span = ([from, to]: [number, number]) => to - from;

  const [left, right] = [await timeChart.at(40, 200), await timeChart.at(60, 200)];
  await timeChart.touch([left, { ...left, x: left.x - 50 }], [right, { ...right, x: right.x + 50 }]);
  await patiently(async () => span(await timeChart.range())).toBeLessThan(span(whole) * 0.6);
  const near = await timeChart.range();
  expect(near[0]).toBeLessThanOrEqual(50);
  expect(near[1]).toBeGreaterThanOrEqual(50);

  const [a, b] = [await timeChart.at(45, 200), await timeChart.at(52, 200)];
  await timeChart.touch([a, { ...a, x: a.x + 60 }], [b, { ...b, x: b.x + 60 }]);
  await patiently(async () => (await timeChart.range())[0]).toBeLessThan(near[0]);
  expect(span(await timeChart.range())).toBeCloseTo(span(near), -1);
  await page.getByRole('button', { name: 'Whole burn' }).tap();
  await patiently(timeChart.range).toEqual(whole);

  // Every probe of the burn is read, those that are not drawn included; the time chart does not move meanwhile.
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  const before = await timeChart.slider.boundingBox();
  const at = await timeChart.at(60, 120);
  await timeChart.touch([at, { ...at, x: at.x + 12 }]);
  const read = (await page.locator('.strip-readout').textContent()) ?? '';
  for (const { name } of record.channels) expect(read).toContain(name);
  expect(await timeChart.slider.boundingBox()).toEqual(before);

  // From the track a finger may scroll the page, and two may start to pinch, without selecting the mark beneath.
  const track = await timeChart.at(0, -20);
  await timeChart.touch([track, { ...track, y: track.y - 60 }, { ...track, y: track.y - 160 }]);
  await atRest(page);
  await patiently(async () => {
    await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const [first, second] = [await timeChart.at(0, -20), await timeChart.at(60, -20)];
    await timeChart.touch([first, first], [second, { ...second, x: second.x + 40 }]);
    return timeChart.range();
  }).not.toEqual(whole);
  expect(await page.locator('dialog').count()).toBe(0);
  // A tap selects it.
  await page.getByRole('button', { name: 'Whole burn' }).tap();
  await timeChart.slider.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  const mark = await timeChart.at(0, -20);
  await page.touchscreen.tap(mark.x, mark.y);
  await page.locator('dialog').waitFor();
});

test('a gap is a gap under the cursor and in the table, and the page of a burn prints without its buttons', async ({
  openPage,
}) => {
  const { page, timeChart, record } = await onPhone(openPage);
  const litUs = record.marks.find(({ kind }) => kind === 'lit')?.elapsedUs ?? 0;
  const inGap = await timeChart.at((2700e6 - litUs) / 60e6, 120);
  await timeChart.touch([inGap, inGap]);
  await patiently(() => page.locator('.strip-readout').textContent()).toMatch(/water no data/);
  await page.getByText('The chart as a table').tap();
  await page.locator('.strip-table tbody tr').first().waitFor();
  const cells = await page.locator('.strip-table tbody td').allTextContents();
  expect(cells.filter((text) => text === 'no data').length).toBeGreaterThanOrEqual(record.channels.length);

  await page.emulateMedia({ media: 'print' });
  for (const hidden of ['.masthead', '.zoom', '.actions']) expect(await page.locator(hidden).isVisible()).toBe(false);
  expect(await page.locator('button').evaluateAll((all) => all.filter((each) => each.checkVisibility()).length)).toBe(
    0,
  );
  expect(await page.locator('.strip canvas').isVisible()).toBe(true);
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe(
    'rgb(255, 255, 255)',
  );
  // A4 between its margins, at 96 px an inch.
  await page.setViewportSize({ width: 718, height: 1000 });
  expect(await overflow(page)).toBe(0);
  const table = await page.locator('.strip-table table').boundingBox();
  expect((table?.x ?? 0) + (table?.width ?? 0)).toBeLessThanOrEqual(718);
  expect((await page.pdf({ format: 'A4' })).subarray(0, 5).toString()).toBe('%PDF-');
});

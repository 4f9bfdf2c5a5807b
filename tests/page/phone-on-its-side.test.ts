import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { overflow } from './accessible.ts';
import { litBurn, saveHeronBurns } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { inkPixels } from './time-chart.ts';

const side = { width: 844, height: 390 };

async function boxOf(locator: Locator) {
  const box = await locator.boundingBox();
  if (!box) throw new Error('it is not on the screen');
  return { left: box.x, right: box.x + box.width, top: box.y, bottom: box.y + box.height };
}

/** Expects that the curve is drawn, begins on the screen and has at least two fifths of its height. */
async function curveIsSeen(page: Page): Promise<void> {
  await patiently(() => inkPixels(page, 'water')).toBeGreaterThan(100);
  const chart = await boxOf(page.locator('.strip-box'));
  expect(await page.evaluate(() => scrollY)).toBe(0);
  expect(Math.min(chart.bottom, side.height) - chart.top).toBeGreaterThan(side.height * 0.4);
  expect(await overflow(page)).toBe(0);
}

test('a phone in landscape shows the curve without scrolling, and the buttons next to it', async ({ openPage }) => {
  const { bench } = await litBurn(60);
  const [record] = await saveHeronBurns(bench, [4]);
  for (const language of ['en', 'fr'] as const) {
    const page = await openPage(bench.url, { width: 390, language });
    await page.setViewportSize(side);
    await page.locator('.strip-box').waitFor();
    await curveIsSeen(page);
    const chart = await boxOf(page.locator('.strip-box'));
    expect(chart.bottom).toBeLessThanOrEqual(side.height);
    for (const button of await page.locator('.thumb button').all()) {
      const { left, top, bottom } = await boxOf(button);
      expect(left).toBeGreaterThanOrEqual(chart.right);
      expect(top).toBeGreaterThanOrEqual(0);
      expect(bottom).toBeLessThanOrEqual(side.height);
      expect(bottom - top).toBeGreaterThanOrEqual(44);
    }
    await page.goto(`${bench.url}#/burns/${record?.id}`);
    await page.locator('.zoom').waitFor();
    await curveIsSeen(page);
    expect((await boxOf(page.locator('.zoom'))).left).toBeGreaterThanOrEqual(
      (await boxOf(page.locator('.strip-box'))).right,
    );
  }
});

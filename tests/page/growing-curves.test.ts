import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { longBurn } from '../../scripts/benchmark/live-page/long-burn.ts';
import { scriptedService } from '../../scripts/benchmark/live-page/scripted-service.ts';
import { test } from '../support/browser.ts';
import { patiently } from './patiently.ts';

const pageFolder = join(import.meta.dirname, '..', '..', 'dist', 'web');

/** Where the curve of the riser ends, px; names stand in the other half of the chart. */
function endOfCurve(page: Page): Promise<number> {
  return page.locator('.strip-box canvas').evaluate((canvas: HTMLCanvasElement) => {
    const ink = getComputedStyle(canvas).getPropertyValue('--riser').trim();
    const colour = [1, 3, 5].map((at) => Number.parseInt(ink.slice(at, at + 2), 16));
    const width = canvas.width >> 1;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, width, canvas.height);
    let end = 0;
    for (let at = 0; at < data.length; at += 4)
      if (colour.every((part, index) => data[at + index] === part)) end = Math.max(end, (at / 4) % width);
    return end;
  });
}

test('a curve grows with the scans that come, and ends where it does when all of it is drawn anew', async ({
  openPage,
}) => {
  const service = await scriptedService(longBurn(1), { pageFolder, scans: 600 });
  onTestFinished(() => service.close());
  const page = await openPage(service.url, { width: 1280, theme: 'light' });
  await page.locator('.strip-box canvas').waitFor();
  await patiently(() => endOfCurve(page)).toBeGreaterThan(0);
  for (let part = 0; part < 3; part++) {
    const before = await endOfCurve(page);
    for (let scan = 0; scan < 90; scan++) service.nextScan();
    await patiently(() => endOfCurve(page)).toBeGreaterThan(before + 4);
  }
  const grown = await endOfCurve(page);
  // With other inks the page draws everything anew.
  await page.emulateMedia({ colorScheme: 'dark' });
  await patiently(async () => Math.abs((await endOfCurve(page)) - grown)).toBeLessThanOrEqual(4);
});

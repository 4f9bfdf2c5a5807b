import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithHeron } from './bench-with-page.ts';

test('a report opened on a phone fits it, shows the main results at once and unfolds the rest; in print all of it is there', async ({
  openPage,
}) => {
  const { bench, records } = await benchWithHeron([4]);
  const page = await openPage('about:blank', { width: 390 });
  for (const language of ['en', 'fr']) {
    const answer = await fetch(`${bench.url}api/burns/${records[0]?.id}/report.html?language=${language}`);
    await page.setContent(await answer.text());
    await page.setViewportSize({ width: 320, height: 600 });
    const closedPx = await page.evaluate(() => document.documentElement.scrollHeight);
    // The sentence, the curve, the main results and the cautions: a few screens, and none of the appendix.
    expect([await overflow(page), closedPx < 5000, await page.locator('.verdict').isVisible()]).toEqual([
      0,
      true,
      true,
    ]);

    const tables = page.locator('details .table');
    expect(await tables.first().isVisible()).toBe(false);
    await page.evaluate(() => {
      for (const each of document.querySelectorAll('details')) each.open = true;
    });
    expect([await overflow(page), await complaints(page)]).toEqual([0, []]);
    await page.evaluate(() => {
      for (const each of document.querySelectorAll('details')) each.open = false;
    });
    await page.emulateMedia({ media: 'print' });
    for (const table of await tables.all()) expect(await table.isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
  }
});

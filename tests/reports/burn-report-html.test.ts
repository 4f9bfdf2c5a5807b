import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect } from 'vitest';
import { burnReport } from '../../server/reports/burn-report.ts';
import { reportToHtml } from '../../server/reports/report-html.ts';
import { curveStyles } from '../../shared/plot/curve-styles.ts';
import { paperInks } from '../../shared/plot/inks.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { hostileTexts } from '../exports/tables.ts';
import { test } from '../support/browser.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { reportInput } from './sample-report.ts';

test('the HTML report opens from a file with the network off, with its own font, and sends no request', async ({
  openPage,
}) => {
  const record = sampleRecord();
  record.title = '<script>document.title = "run"</script>';
  record.marks.forEach((mark, index) => {
    mark.note = hostileTexts[index % hostileTexts.length]!.trim();
  });
  const file = join(temporaryFolder(), 'report.html');
  writeFileSync(file, reportToHtml(burnReport(reportInput(record))));
  const page = await openPage(pathToFileURL(file).href, { width: 390 });
  expect(await page.title()).toBe(record.title);
  expect(await page.locator('figure svg path').count()).toBeGreaterThan(20);
  // A probe has the style that it has on the page.
  const { ink, dash } = curveStyles.flue;
  expect(
    await page.locator(`figure svg path[stroke="${paperInks[ink]}"][stroke-dasharray="${dash.join(' ')}"]`).count(),
  ).toBeGreaterThan(1);
  expect(await page.locator('body').textContent()).toContain('=cmd|');
  await page.evaluate(() => document.fonts.ready);
  expect(await page.evaluate(() => document.fonts.check('16px "Atkinson Hyperlegible Next"'))).toBe(true);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  // The figures of an axis on a phone are as large as the small print of a page, and one drawing is shown at a time.
  const drawing = page.locator('figure svg:visible');
  expect(await drawing.count()).toBe(1);
  const label = await drawing.locator('text').first().boundingBox();
  expect(label!.height).toBeGreaterThan(9);
});

test('on a wider screen a line of a cell does not wrap, and no heading of a column is broken inside a word', async ({
  openPage,
}) => {
  const file = join(temporaryFolder(), 'report.html');
  writeFileSync(file, reportToHtml(burnReport(reportInput(sampleRecord()))));
  const page = await openPage(pathToFileURL(file).href);
  await page.setViewportSize({ width: 844, height: 600 });
  await page.evaluate(() => {
    for (const each of document.querySelectorAll('details')) each.open = true;
  });
  const heatingValue = page.locator('td', { hasText: 'its char' }).first();
  const indentPx = await heatingValue.evaluate((cell) => {
    const range = document.createRange();
    const at = (cell.textContent ?? '').indexOf('its char');
    range.setStart(cell.firstChild!, at);
    range.setEnd(cell.firstChild!, at + 3);
    return range.getBoundingClientRect().left - cell.getBoundingClientRect().left;
  });
  expect(indentPx).toBeLessThan(1);
  const lines = await page.locator('th', { hasText: /^apart$/ }).evaluateAll((heads) =>
    heads.map((head) => {
      const range = document.createRange();
      range.selectNodeContents(head);
      return range.getClientRects().length;
    }),
  );
  expect(lines).toEqual([1]);
});

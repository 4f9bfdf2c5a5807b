import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

test('a photo taken at the stove is a mark that shows it, and one of a revision stays with it', async ({
  openPage,
}) => {
  const timeScale = 20;
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  const { burn } = await startBurn(bench);
  const page = await openPage(bench.url, { width: 390, expectedErrors: [/400 \(Bad Request\)/] });
  await page.locator('.thumb-rest button').last().tap();
  await page.getByRole('button', { name: 'Photo', exact: true }).tap();
  const choose = page.getByLabel('Take or choose a photo');
  await choose.setInputFiles({ name: 'note.png', mimeType: 'image/png', buffer: Buffer.from('no photo') });
  await page.getByText('This is not a photo that every browser can show.').waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  const photo = { name: 'yard.png', mimeType: 'image/png', buffer: await page.screenshot() };
  await choose.setInputFiles(photo);
  const shown = page.locator('.log .photo img');
  await patiently(() => shown.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(100);
  // The page shows its photo before the service has the mark.
  const photoOfMark = async () => {
    const { marks } = await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
    return marks.flatMap(({ mark }) => (mark.kind === 'photo' ? [mark.photo] : []))[0];
  };
  await patiently(photoOfMark).toBeDefined();
  const name = await photoOfMark();

  await page.goto(`${bench.url}#/shelf/revisions`);
  await page.locator('.inventory-item').first().tap();
  await page.getByLabel('Take or choose a photo').setInputFiles(photo);
  await page.locator('.photo img').waitFor();
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  const revision = () => bench.ask<{ photo?: string }>('GET', `/revisions/${burn.revisionId}`);
  await patiently(async () => (await revision()).photo).toBe(name);
});

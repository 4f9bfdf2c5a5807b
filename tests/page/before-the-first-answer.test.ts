import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';

/** Delays the live stream, as a slow network does, until the returned function is called. */
async function holdStream(page: Page): Promise<() => void> {
  let release = () => {};
  const released = new Promise<void>((done) => {
    release = done;
  });
  await page.route('**/api/stream', async (route) => {
    await released;
    await route.continue();
  });
  return release;
}

/** The page for a screen reader: its accessibility tree. */
const tree = (page: Page) => page.locator('body').ariaSnapshot();

test('before the service has sent the boards of the bench, no board is shown as gone and no water as unread', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  await plugInSimulatedBoard(bench, 1);
  await startBurn(bench);
  const page = await openPage('about:blank', { width: 390 });
  const release = await holdStream(page);
  await page.goto(bench.url);
  await page.getByRole('heading', { name: 'Heron 2, live' }).waitFor();
  const before = await tree(page);
  expect(before).not.toMatch(/no board|board gone|board silent|No water probe|service does not answer|lost/i);
  release();
  await page.getByText('board OK').waitFor();
  await page.locator('.number .figure').waitFor();
  expect(await tree(page)).not.toContain('Waiting for a reading');
});

test('a bench is not shown as empty, nor its boards as missing, before its boards are known', async ({ openPage }) => {
  const bench = await benchWithPage();
  await plugInSimulatedBoard(bench, 1);
  const page = await openPage('about:blank', { width: 390 });
  const release = await holdStream(page);
  await page.goto(bench.url);
  await page.locator('main .fetching').waitFor();
  expect(await tree(page)).not.toMatch(/empty|no burn/i);
  release();
  await page.getByText('A board is attached').waitFor();
});

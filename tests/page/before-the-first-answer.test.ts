import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';

/** Holds the live stream back, as a slow network does, until it is let go. */
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

/** What a screen reader finds on the page, by its accessibility tree. */
const tree = (page: Page) => page.locator('body').ariaSnapshot();

test('until the service has said what hangs on the bench, no board is called gone and no water unread', async ({
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

test('a bench is not called empty, nor its boards missing, before its boards are known', async ({ openPage }) => {
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

import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { headerForSecureAddresses, serviceByName } from './service-by-name.ts';

test('over plain http by host name the page runs a burn without features that browsers reserve for secure addresses', async ({
  openPage,
}) => {
  const timeScale = 20;
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  const { burn } = await startBurn(bench);
  const page = await openPage(await serviceByName(bench), {
    width: 390,
    // Some headers of the service are for secure addresses only; a browser logs those that it ignores here.
    expectedErrors: [/Failed to load resource/, /net::ERR/, headerForSecureAddresses],
  });
  expect(
    await page.evaluate(() => [isSecureContext, 'randomUUID' in crypto, 'wakeLock' in navigator, 'locks' in navigator]),
  ).toEqual([false, false, false, false]);
  await page.locator('.number .figure').waitFor();
  const stored = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.map(({ mark }) => mark.kind);
  await page.getByRole('button', { name: /^Lit/ }).tap();
  // Only then: a mark still being sent would wait together with the next one.
  await patiently(stored).toEqual(['lit']);
  await page.context().setOffline(true);
  await page.getByText('The service does not answer.').waitFor();
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).tap();
  await page.getByText('1 entry waiting').waitFor();
  await page.context().setOffline(false);
  await patiently(stored).toEqual(['lit', 'nudged']);
  // The screen is kept awake by a video where there is no wake lock.
  expect(await page.locator('video.awake').evaluate((video: HTMLVideoElement) => [video.muted, video.paused])).toEqual([
    true,
    false,
  ]);
  await page.goto(`${new URL(page.url()).origin}/#/settings`);
  await page.getByText('This page came over plain http').waitFor();
});

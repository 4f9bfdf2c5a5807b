import { once } from 'node:events';
import { createServer, request } from 'node:http';
import { expect, onTestFinished } from 'vitest';
import type { BurnDetail } from '../../shared/contract/api.ts';
import { MAPPED_HOST, test } from '../support/browser.ts';
import { type BenchWithPage, benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/**
 * The service answers to loopback names only. This stands between it and a browser that comes by host name over plain
 * http, as a phone would, so that the page has to live without what browsers keep for secure addresses.
 */
async function doorByName(bench: BenchWithPage): Promise<string> {
  const inside = `127.0.0.1:${bench.port}`;
  const door = createServer((incoming, outgoing) => {
    const { origin, ...headers } = incoming.headers;
    const passed = request(
      {
        host: '127.0.0.1',
        port: bench.port,
        method: incoming.method,
        path: incoming.url,
        headers: { ...headers, host: inside, ...(origin && { origin: `http://${inside}` }) },
      },
      (answer) => {
        outgoing.writeHead(answer.statusCode ?? 502, answer.headers);
        answer.pipe(outgoing);
      },
    );
    passed.on('error', () => outgoing.destroy());
    outgoing.on('close', () => passed.destroy());
    incoming.pipe(passed);
  });
  door.listen(0, '127.0.0.1');
  await once(door, 'listening');
  onTestFinished(() => {
    door.closeAllConnections();
    door.close();
  });
  return `http://${MAPPED_HOST}:${(door.address() as { port: number }).port}/`;
}

test('over plain http by host name the page runs a burn without what browsers keep for secure addresses', async ({
  openPage,
}) => {
  const timeScale = 20;
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  const { burn } = await startBurn(bench);
  const page = await openPage(await doorByName(bench), {
    width: 390,
    // The service's headers are meant for secure addresses too; a browser says which of them it ignores here.
    expectedErrors: [/Failed to load resource/, /net::ERR/, /Cross-Origin-Opener-Policy header has been ignored/],
  });
  expect(
    await page.evaluate(() => [isSecureContext, 'randomUUID' in crypto, 'wakeLock' in navigator, 'locks' in navigator]),
  ).toEqual([false, false, false, false]);
  await page.locator('.number .figure').waitFor();
  const kept = async () => (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.map(({ mark }) => mark.kind);
  await page.getByRole('button', { name: /^Lit/ }).tap();
  // Only then: a mark that was still on its way would wait with the next one.
  await patiently(kept).toEqual(['lit']);
  await page.context().setOffline(true);
  await page.getByText('The service does not answer.').waitFor();
  await page.getByRole('button', { name: 'Nudged', exact: true }).tap();
  await page.getByText('1 entry waiting').waitFor();
  await page.context().setOffline(false);
  await patiently(kept).toEqual(['lit', 'nudged']);
  // The screen is kept awake by a video where there is no wake lock.
  expect(await page.locator('video.awake').evaluate((video: HTMLVideoElement) => [video.muted, video.paused])).toEqual([
    true,
    false,
  ]);
  await page.goto(`${new URL(page.url()).origin}/#/settings`);
  await page.getByText('This page came over plain http').waitFor();
});

import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, onTestFinished } from 'vitest';
import { MAPPED_HOST, pagesOf, test } from '../support/browser.ts';
import { PATIENCE_MS } from '../support/patience.ts';

/** Serves one page on loopback until the test ends, and nothing else. */
async function serve(body: string): Promise<number> {
  const server = createServer((request, response) => {
    if (request.url === '/') response.setHeader('content-type', 'text/html').end(`<!doctype html>${body}`);
    else response.writeHead(request.url === '/favicon.ico' ? 204 : 404).end();
  });
  onTestFinished(() => void server.close());
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return (server.address() as AddressInfo).port;
}

test('a page opens on a phone or a laptop, light or dark, for a reader of English or French', async ({ openPage }) => {
  const port = await serve('<meta name="viewport" content="width=device-width">');
  for (const options of [
    { width: 390, theme: 'dark', language: 'fr' },
    { width: 1280, theme: 'light', language: 'en' },
  ] as const) {
    const page = await openPage(`http://127.0.0.1:${port}/`, options);
    const seen = await page.evaluate(() => ({
      width: innerWidth,
      theme: matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light',
      language: navigator.language.slice(0, 2),
    }));
    expect(seen).toEqual(options);
  }
});

test('a page opened by host name has only the features that a phone has over plain http', async ({ openPage }) => {
  const port = await serve('');
  const secure = (host: string) =>
    openPage(`http://${host}:${port}/`).then((page) => page.evaluate(() => globalThis.isSecureContext));
  expect(await secure('127.0.0.1')).toBe(true);
  expect(await secure(MAPPED_HOST)).toBe(false);
});

test('failures of a page are found: console errors, uncaught errors, missing files, requests to other machines', async ({
  browser,
}) => {
  const pages = pagesOf(browser);
  const wrongs = [
    '<script>console.error("planted complaint")</script>',
    '<script>throw new Error("planted failure")</script>',
    '<script>Promise.reject(new Error("planted rejection"))</script>',
    '<img src="/gone.png">',
    '<img src="http://elsewhere.example/pixel.png">',
    '<script>new WebSocket("ws://elsewhere.example/")</script>',
  ];
  await pages.openPage(`http://127.0.0.1:${await serve(wrongs.join('\n'))}/`);

  for (const found of [
    'planted complaint',
    'planted failure',
    'planted rejection',
    'gone.png',
    'request left the machine: http://elsewhere.example/pixel.png',
    'request left the machine: ws://elsewhere.example/',
  ]) {
    await expect.poll(() => pages.problems, { timeout: PATIENCE_MS }).toContainEqual(expect.stringContaining(found));
  }
  await pages.close();
});

test('an error that the test expects is not a failure', async ({ openPage }) => {
  const port = await serve('<img src="/gone.png">');
  const page = await openPage(`http://127.0.0.1:${port}/`, { expectedErrors: [/gone\.png/] });
  expect(await page.locator('img').count()).toBe(1);
});

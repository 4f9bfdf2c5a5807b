import { cpSync, globSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { ensurePageBuilt } from '../../scripts/build/page.ts';
import { listShell } from '../../scripts/build/shell.ts';
import { test } from '../support/browser.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, litBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const builtPage = join(repositoryRoot, 'dist', 'web');
/** The browser logs errors for a lost service, as expected. */
const away = [/Failed to load resource/, /net::ERR/];

/** Waits until the worker has every file, and controls this page. */
async function stored(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}

test('the manifest has all fields that a home screen requires, and its icons have their declared sizes', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(bench.url, { storesPage: true });
  const session = await page.context().newCDPSession(page);
  const { errors, url } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  const response = await fetch(url);
  expect(response.headers.get('content-type')).toContain('application/manifest+json');
  // Requirements of Chromium and the W3C's manifest for a page to be installed: names, start, display, icons of 192 and
  // 512.
  const manifest = (await response.json()) as {
    icons: { src: string; sizes: string; type: string; purpose?: string }[];
  };
  expect(manifest).toMatchObject({ name: 'Stovebench', short_name: 'Stovebench', start_url: '/', scope: '/' });
  expect(manifest).toMatchObject({ display: 'standalone', lang: 'en', theme_color: '#faf7f0' });
  const sizes = await page.evaluate(
    (icons) =>
      Promise.all(
        icons.map(async ({ src }) => {
          const { width, height } = await createImageBitmap(await (await fetch(src)).blob());
          return `${width}x${height}`;
        }),
      ),
    manifest.icons.filter(({ type }) => type === 'image/png'),
  );
  expect(sizes).toEqual(['192x192', '512x512', '512x512']);
  expect(manifest.icons.at(-1)).toMatchObject({ purpose: 'maskable', sizes: '512x512' });
  await stored(page);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  // A page of a test has no permanent profile to be installed into; that may be the only obstacle.
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
});

test('the worker stores every file of the page and none of the data', async ({ openPage }) => {
  const { bench } = await litBurn(20);
  const page = await openPage(bench.url, { width: 390, storesPage: true });
  await stored(page);
  await page.reload();
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).waitFor();
  const paths = await page.evaluate(async () => {
    const caches = await globalThis.caches.keys();
    const requests = await Promise.all(caches.map(async (name) => (await globalThis.caches.open(name)).keys()));
    return requests.flat().map(({ url }) => new URL(url).pathname);
  });
  const files = globSync('**/*.*', { cwd: builtPage }).filter((path) => path !== 'shell-worker.js');
  expect(paths.sort()).toEqual(files.map((path) => `/${path}`).sort());
  await page.goto(`${bench.url}#/settings`);
  await page.getByText('it opens while the service is away').waitFor();
});

test('without its service the page opens, accepts an entry, and delivers it once', async ({ openPage }) => {
  const { bench, marks } = await litBurn(20);
  const page = await openPage(bench.url, { width: 390, storesPage: true, expectedErrors: away });
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).waitFor();
  await stored(page);
  await page.waitForFunction(() => localStorage.getItem('stovebench.running')?.includes('"lit"'));
  await bench.stop();

  await page.reload();
  await page.getByText('even if this page is closed').waitFor();
  await page.locator('.no-water', { hasText: 'No reading while the service' }).waitFor();
  await page.getByRole('button', { name: 'Poked the fire', exact: true }).tap();
  await page.getByRole('button', { name: /^Fed/ }).tap();
  await page.getByRole('button', { name: 'Not weighed' }).tap();
  await page.getByText('2 entries waiting').waitFor();
  // To the end: the buttons at the bottom of the screen hide half of what is scrolled to their edge.
  await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.reload();
  await page.getByText('2 entries waiting').waitFor();

  await bench.start();
  await patiently(async () => (await marks()).filter(({ kind }) => kind !== 'lit').map(({ kind }) => kind)).toEqual([
    'nudged',
    'fed',
  ]);
  await page.locator('.banner').waitFor({ state: 'detached' });
  await page.locator('.number .figure').waitFor();
  const [lit, nudged, fed, ...more] = (await marks()).map(({ elapsedUs }) => elapsedUs);
  // On the clock of the burn, though it was entered on a page that never received that clock.
  expect(nudged).toBeGreaterThan(lit!);
  expect(fed).toBeGreaterThanOrEqual(nudged!);
  expect(more).toEqual([]);
});

test('a device whose pairing is revoked removes the running burn', async ({ openPage }) => {
  const { bench } = await litBurn(20);
  const page = await openPage(bench.url, { width: 390, expectedErrors: away });
  await page.waitForFunction(() => localStorage.getItem('stovebench.running') !== null);
  await page.route('**/api/**', (route) =>
    route.fulfill({ status: 401, json: { code: 'pairing/needed', message: 'Pair this device.' } }),
  );
  await page.reload();
  await page.getByText('Pair this device with the bench').waitFor();
  expect(await page.evaluate(() => localStorage.getItem('stovebench.running'))).toBeNull();
});

test('a new build replaces the stored page, with a notice while it is open', async ({ openPage }) => {
  await ensurePageBuilt(() => undefined);
  const pageFolder = temporaryFolder();
  cpSync(builtPage, pageFolder, { recursive: true });
  const bench = await benchWithPage({ pageFolder });
  const page = await openPage(bench.url, { storesPage: true, expectedErrors: away });
  await stored(page);
  const caches = () => page.evaluate(() => globalThis.caches.keys());
  const [older] = await caches();

  await bench.stop();
  buildAnew(pageFolder);
  await bench.start();
  await page.getByText('The bench has a newer version of this page.').waitFor();
  await patiently(caches).toEqual([expect.not.stringContaining(older!)]);
  expect(await complaints(page)).toEqual([]);
  await page.getByRole('button', { name: 'Load it' }).click();
  await page.locator('link[href="/assets/anew.css"]').waitFor({ state: 'attached' });
  await page.getByText('The bench has a newer version of this page.').waitFor({ state: 'detached' });

  await bench.stop();
  await page.reload();
  await page.locator('.banner').getByText('The service does not answer.').waitFor();
  expect(await page.locator('link[href="/assets/anew.css"]').count()).toBe(1);
});

/** Changes the files like a build after a change of style: a file of another name, and a page that requests it. */
function buildAnew(folder: string): void {
  const index = join(folder, 'index.html');
  const html = readFileSync(index, 'utf8');
  const style = /\/assets\/(index-[\w-]+\.css)/.exec(html)![1]!;
  cpSync(join(folder, 'assets', style), join(folder, 'assets', 'anew.css'));
  writeFileSync(index, html.replaceAll(style, 'anew.css'));
  listShell(folder);
}

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { firstLoad, firstLoadGzipBytes } from '../../scripts/build/first-load.ts';
import { ensurePageBuilt } from '../../scripts/build/page.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const folder = join(repositoryRoot, 'dist', 'web');
const read = (path: string) => readFileSync(join(folder, path), 'utf8');

test('the first screen costs at most 120 kB of compressed script and style', async () => {
  await ensurePageBuilt(() => undefined);
  expect(firstLoad(folder).some((path) => path.endsWith('.css'))).toBe(true);
  const weight = firstLoadGzipBytes(folder);
  // A size that is too small would mean that this test misses the charts.
  expect(weight).toBeGreaterThan(60_000);
  expect(weight).toBeLessThanOrEqual(120_000);
});

test('no script of the page contains schemas, which only the service uses', async () => {
  await ensurePageBuilt(() => undefined);
  const scripts = readdirSync(join(folder, 'assets')).filter((name) => name.endsWith('.js'));
  expect(scripts.length).toBeGreaterThan(0);
  expect(scripts.filter((name) => read(join('assets', name)).includes('ZodError'))).toEqual([]);
});

test('the built page contains no address of another machine', async () => {
  await ensurePageBuilt(() => undefined);
  for (const path of ['index.html', ...firstLoad(folder)]) {
    const addresses = [...read(path).matchAll(/https?:\/\/[\w.-]+/g)].map(([address]) => address);
    // The namespaces of SVG and XHTML are identifiers that are not fetched.
    expect(addresses.filter((address) => !/^http:\/\/www\.w3\.org/.test(address))).toEqual([]);
  }
});

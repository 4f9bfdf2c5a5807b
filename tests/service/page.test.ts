import { expect, test } from 'vitest';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

const built = () =>
  temporaryFolder({
    'index.html': '<!doctype html><title>page</title>',
    'assets/main-3f9a1c.js': 'export {}',
    'icon.svg': '<svg/>',
  });

test.each(['/', '/burns', '/burns/01a211f5-522c-7a2a-8033-4c1a396a6b31?tab=results'])(
  '%s shows the page, never a stale one',
  async (path) => {
    const { call } = await testService({ pageFolder: built() });
    const { status, headers, text } = await call('GET', path);
    expect([status, headers['cache-control'], text]).toEqual([200, 'no-cache', '<!doctype html><title>page</title>']);
  },
);

test('files named by their content are cached for ever, others requested again', async () => {
  const { call } = await testService({ pageFolder: built() });
  expect((await call('GET', '/assets/main-3f9a1c.js')).headers['cache-control']).toBe(
    'public, max-age=31536000, immutable',
  );
  expect((await call('GET', '/icon.svg')).headers['cache-control']).toBe('no-cache');
});

test('a request for a missing file does not return the page', async () => {
  const { call } = await testService({ pageFolder: built() });
  expect((await call('GET', '/assets/gone.js')).status).toBe(404);
  expect((await call('GET', '/../package.json')).status).toBe(404);
  expect((await call('GET', '/..%2f..%2fetc%2fpasswd')).text).toBe('<!doctype html><title>page</title>');
});

test('a page that was not built is reported as missing, with the remedy', async () => {
  const { call } = await testService();
  const { status, body } = await call('GET', '/');
  expect([status, body.code]).toEqual([503, 'page/not-built']);
  expect(body.message).toContain('npm run build');
});

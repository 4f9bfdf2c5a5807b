import { once } from 'node:events';
import { request as httpRequest } from 'node:http';
import { connect } from 'node:net';
import { text } from 'node:stream/consumers';
import { afterEach, expect, onTestFinished, test, vi } from 'vitest';
import { openNetworkBench, pair } from '../support/network-bench.ts';
import fc from '../support/properties.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

afterEach(() => {
  vi.restoreAllMocks();
});

const PAGE = { 'index.html': '<!doctype html><title>page</title>' };

async function listening() {
  const bench = await openNetworkBench({ pageFolder: temporaryFolder(PAGE) });
  await bench.app.listen({ host: '127.0.0.1', port: 0 });
  const { port } = bench.app.server.address() as { port: number };
  const printed: unknown[][] = [];
  vi.spyOn(console, 'error').mockImplementation((...line) => void printed.push(line));
  /** Sent unchanged: a client library would normalise it. */
  const raw = async (method: string, path: string, host = 'bench.test') => {
    const socket = connect(port, '127.0.0.1');
    socket.write(`${method} ${path} HTTP/1.1\r\nHost: ${host}:${port}\r\nConnection: close\r\n\r\n`);
    const answer = await text(socket);
    return Number(answer.split(' ')[1]);
  };
  return { ...bench, port, raw, printed };
}

const ODD_PATHS = [
  '/..',
  '//x',
  '/./x',
  '/%00',
  '/%',
  '/%ff',
  `/${'a'.repeat(300)}`,
  `/api/burns/${'a'.repeat(300)}`,
  '/api/burns/../../etc/passwd',
  '/api/burns/..%2f..%2fetc%2fpasswd',
  '/api/photos/..%2f..%2fetc%2fpasswd',
  '/api/burns/%00',
  '/assets/..%2f..%2fpackage.json',
  `/${'%2e%2e/'.repeat(5)}`,
  '/a%00.js',
  '/\\x',
  'http://evil.example/',
  '*',
];

test.each(['bench.test', 'localhost'])('no odd path causes an internal error, requested by %s', async (host) => {
  const { raw, printed } = await listening();
  for (const path of ODD_PATHS) {
    for (const method of ['GET', 'HEAD', 'POST', 'DELETE', 'OPTIONS', 'TRACE']) {
      const status = await raw(method, path, host);
      expect(status, `${method} ${path}`).toBeGreaterThanOrEqual(200);
      expect(status, `${method} ${path}`).toBeLessThan(500);
    }
  }
  expect(printed).toEqual([]);
});

test('no path made of such pieces causes an internal error', async () => {
  const { raw, printed } = await listening();
  const piece = fc.constantFrom(
    '..',
    '.',
    '',
    '%2e',
    '%2f',
    '%5c',
    '%00',
    '%',
    '\\',
    'api',
    'burns',
    'é',
    ':',
    '?',
    ';',
  );
  const path = fc
    .array(piece, { maxLength: 8 })
    .map((pieces) => encodeURI(`/${pieces.join('/')}`).replaceAll('%25', '%'));
  await fc.assert(
    fc.asyncProperty(path, async (odd) => {
      expect(await raw('GET', odd)).toBeLessThan(500);
    }),
  );
  expect(printed).toEqual([]);
});

test('an internal error for a stranger is printed in one short line, and in full for a known device', async () => {
  const { app, asPhone, call } = await openNetworkBench({ pageFolder: temporaryFolder(PAGE) });
  const printed: unknown[][] = [];
  vi.spyOn(console, 'error').mockImplementation((...line) => void printed.push(line));
  app.addHook('preHandler', async () => {
    throw new Error('first line\nsecond line');
  });
  expect((await asPhone('GET', `/${'x'.repeat(500)}`)).status).toBe(500);
  expect(printed).toHaveLength(1);
  expect(printed[0]!.join(' ')).toMatch(/^[^\n]{1,450}$/);
  expect((await call('GET', '/api/burns')).status).toBe(500);
  expect(printed[1]![1]).toBeInstanceOf(Error);
});

test.each([
  'forwarded',
  'via',
  'x-forwarded-for',
  'x-forwarded-host',
  'x-forwarded-proto',
  'x-real-ip',
  'x-client-ip',
  'x-request-id',
  'cdn-loop',
  'true-client-ip',
  'cf-connecting-ip',
  'traceparent',
])('a request with %s came through a proxy, and is a stranger’s', async (header) => {
  const { call } = await openNetworkBench();
  expect((await call('GET', '/api/burns', undefined, { [header]: '1' })).status).toBe(401);
});

test('a device that opens streams without limit blocks neither the bench nor another device', async () => {
  const bench = await listening();
  const follow = async (cookie?: string) => {
    const request = httpRequest({
      port: bench.port,
      path: '/api/stream',
      headers: { host: cookie ? 'bench.test' : 'localhost', ...(cookie && { cookie }) },
    });
    onTestFinished(() => void request.destroy());
    request.end();
    const [response] = await once(request, 'response');
    return response.statusCode as number;
  };
  const [greedy, other] = [await pair(bench, 'One'), await pair(bench, 'Two')];
  const statuses = await Promise.all(Array.from({ length: 20 }, () => follow(greedy.cookie)));
  expect(statuses.filter((status) => status === 200)).toHaveLength(8);
  expect(new Set(statuses)).toEqual(new Set([200, 503]));
  expect(await follow(other.cookie)).toBe(200);
  expect(await follow()).toBe(200);
});

test('heavy requests of one device wait for each other, and above a limit are refused; the bench has priority', async () => {
  const bench = await openNetworkBench();
  const { promise: held, resolve: letGo } = Promise.withResolvers<void>();
  let working = 0;
  let most = 0;
  bench.app.addHook('preHandler', async (request) => {
    if (!request.url.startsWith('/api/package.zip') || request.headers.host !== 'bench.test:4280') return;
    working += 1;
    most = Math.max(most, working);
    await held;
    working -= 1;
  });
  const { cookie } = await pair(bench);
  const asked = Array.from({ length: 25 }, () => bench.asPhone('GET', '/api/package.zip', undefined, { cookie }));
  const refused = await Promise.race(asked);
  expect(refused).toMatchObject({ status: 429, body: { code: 'request/too-many-at-once' } });
  expect((await bench.call('GET', '/api/package.zip')).status).toBe(200);
  expect((await bench.asPhone('GET', '/api/burns', undefined, { cookie })).status).toBe(200);
  letGo();
  const statuses = (await Promise.all(asked)).map(({ status }) => status);
  expect(statuses.filter((status) => status === 200)).toHaveLength(18);
  expect(statuses.filter((status) => status === 429)).toHaveLength(7);
  expect(most).toBe(2);
});

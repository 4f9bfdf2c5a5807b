import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { createFakeClock } from '../support/fake-clock.ts';
import { codeOf, openNetworkBench, PHONE, pair } from '../support/network-bench.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import type { Answer } from '../support/test-service.ts';

/** The worker process starts first, on a machine that others use. */
const PATIENCE_MS = 30_000;

const wrong = (code: string) => String((Number(code) + 1) % 1e6).padStart(6, '0');

test('a phone enters the code of the bench machine once and is paired from then on, across a restart too', async () => {
  const folder = temporaryFolder();
  const bench = await openNetworkBench({ folder });
  const code = await codeOf(bench);
  expect(code).toMatch(/^\d{6}$/);
  const answer = await bench.asPhone('POST', '/api/pairing', {
    code: `${code.slice(0, 3)} ${code.slice(3)}`,
    name: 'Yard',
  });
  expect(answer).toMatchObject({ status: 201, body: { name: 'Yard' } });
  const set = String(answer.headers['set-cookie']);
  expect(set).toMatch(/; HttpOnly; SameSite=Strict$/);
  const [cookie = ''] = set.split(';');
  expect((await bench.asPhone('GET', '/api/burns', undefined, { cookie })).status).toBe(200);
  expect((await bench.asPhone('GET', '/api/pairing', undefined, { cookie })).body).toEqual({
    you: 'paired',
    network: { secure: false, addresses: ['http://192.168.1.7:4280'] },
  });
  await bench.close();
  const again = await openNetworkBench({ folder });
  expect((await again.asPhone('GET', '/api/burns', undefined, { cookie })).status).toBe(200);
});

test('the stored form of a token cannot be used as one, and only its owner may read the file', async () => {
  const bench = await openNetworkBench();
  const { cookie } = await pair(bench);
  const file = join(bench.folder, 'paired-devices.json');
  const stored = readFileSync(file, 'utf8');
  expect(stored).not.toContain(cookie.split('=')[1]);
  expect(statSync(file).mode & 0o077).toBe(0);
  const { tokenSha256 } = JSON.parse(stored).devices[0];
  const stolen = { cookie: `stovebench-device=${tokenSha256}` };
  expect((await bench.asPhone('GET', '/api/burns', undefined, stolen)).status).toBe(401);
});

test.each([
  ['GET', '/api/burns'],
  ['GET', '/%61pi/burns'],
  ['GET', '/api/health'],
  ['GET', '/api/stream'],
  ['GET', '/api/openapi.json'],
  ['GET', '/api/kettles'],
  ['POST', '/api/stoves'],
  ['POST', '/api/pairing/code'],
  ['HEAD', '/api/burns'],
])('a stranger is refused %s %s', async (method, path) => {
  const { asPhone } = await openNetworkBench();
  const answer = await asPhone(method, path, method === 'POST' ? { name: 'Heron' } : undefined);
  expect(answer.status).toBe(401);
  if (method !== 'HEAD')
    expect(answer.body).toMatchObject({ code: 'pairing/needed', message: expect.stringContaining('code') });
});

test('a stranger gets the page, which requests the code, and no data', async () => {
  const pageFolder = temporaryFolder({ 'index.html': '<!doctype html>', 'icon.svg': '<svg/>' });
  const { asPhone, call } = await openNetworkBench({ pageFolder });
  await call('POST', '/api/pairing/code');
  expect((await asPhone('GET', '/')).status).toBe(200);
  expect((await asPhone('GET', '/icon.svg')).status).toBe(200);
  expect((await asPhone('GET', '/api/pairing')).body).toEqual({ you: 'stranger' });
});

test('the bench machine needs no pairing, by loopback only and not through a proxy', async () => {
  const { asPhone, call } = await openNetworkBench();
  expect((await call('GET', '/api/burns')).status).toBe(200);
  const passedOn = { 'x-forwarded-for': PHONE };
  expect((await call('GET', '/api/burns', undefined, passedOn)).status).toBe(401);
  // By a name of the network, such as through a tunnel, even a connection from this machine is a stranger's.
  expect((await asPhone('GET', '/api/burns', undefined, { from: '127.0.0.1' })).status).toBe(401);
  const pretending = { headers: { host: 'localhost:4280' } };
  expect((await asPhone('GET', '/api/burns', undefined, pretending)).status).toBe(401);
});

test('a name that does not belong to this machine is refused before anything else', async () => {
  const { asPhone } = await openNetworkBench();
  const foreign = { headers: { host: 'bench.test.evil.example' } };
  expect((await asPhone('GET', '/', undefined, foreign)).body.code).toBe('request/host-refused');
  const origin = { headers: { origin: 'http://evil.example' } };
  expect((await asPhone('POST', '/api/pairing', { code: '1' }, origin)).body.code).toBe('request/origin-refused');
});

test('a code is valid once, for five minutes, and a new one invalidates the one before', async () => {
  const clock = createFakeClock();
  const bench = await openNetworkBench({ clock });
  const tryCode = async (code: string) => (await bench.asPhone('POST', '/api/pairing', { code })).body.code;
  const first = await codeOf(bench);
  expect(await tryCode(first)).toBeUndefined();
  expect(await tryCode(first)).toBe('pairing/no-code');
  const second = await codeOf(bench);
  clock.advance(299_000);
  expect((await bench.call('GET', '/api/pairing')).body.code).toEqual({ code: second, leftS: 1 });
  clock.advance(1000);
  expect(await tryCode(second)).toBe('pairing/no-code');
  expect((await bench.call('GET', '/api/pairing')).body.code).toBeUndefined();
  const third = await codeOf(bench);
  await bench.call('DELETE', '/api/pairing/code');
  expect(await tryCode(third)).toBe('pairing/no-code');
});

test('a device that guesses is blocked for ten minutes, even with the right code, while others are not', async () => {
  const clock = createFakeClock();
  const bench = await openNetworkBench({ clock });
  const code = await codeOf(bench);
  const tryCode = async (typed: string, from = PHONE) =>
    (await bench.asPhone('POST', '/api/pairing', { code: typed }, { from })).body.code;
  for (let tries = 0; tries < 5; tries++) expect(await tryCode(wrong(code))).toBe('pairing/code-wrong');
  expect(await tryCode(code)).toBe('pairing/too-many-tries');
  expect(await tryCode(code, '192.168.1.21')).toBeUndefined();
  clock.advance(600_000);
  expect(await tryCode(await codeOf(bench))).toBeUndefined();
});

test('after twenty wrong guesses from anywhere the code itself is invalid', async () => {
  const bench = await openNetworkBench();
  const code = await codeOf(bench);
  for (let tries = 0; tries < 20; tries++) {
    const from = `192.168.1.${100 + tries}`;
    await bench.asPhone('POST', '/api/pairing', { code: wrong(code) }, { from });
  }
  expect((await bench.asPhone('POST', '/api/pairing', { code })).body.code).toBe('pairing/no-code');
});

test('a revoked device has no access at once, and only the bench machine can revoke', async () => {
  const bench = await openNetworkBench();
  const lost = await pair(bench, 'lost phone');
  const other = await pair(bench);
  const path = `/api/pairing/devices/${lost.id}`;
  expect((await bench.asPhone('DELETE', path, undefined, other)).body.code).toBe('pairing/bench-only');
  expect((await bench.asPhone('POST', '/api/pairing/code', undefined, other)).body.code).toBe('pairing/bench-only');
  expect((await bench.call('DELETE', path)).status).toBe(204);
  expect((await bench.asPhone('GET', '/api/burns', undefined, lost)).body.code).toBe('pairing/needed');
  expect((await bench.asPhone('GET', '/api/burns', undefined, other)).status).toBe(200);
  expect((await bench.call('GET', '/api/pairing')).body.devices).toEqual([expect.objectContaining({ id: other.id })]);
  expect((await bench.call('DELETE', path)).body.code).toBe('pairing/device-not-found');
});

test('a paired phone sees the progress of flashing, but cannot flash a board itself', async () => {
  const bench = await openNetworkBench();
  const { cookie } = await pair(bench);
  const answer = await bench.asPhone('POST', '/api/flashing', { path: 'bench' }, { cookie });
  expect([answer.status, answer.body.code]).toEqual([403, 'flash/bench-only']);
  expect((await bench.asPhone('GET', '/api/flashing', undefined, { cookie })).body.mayFlash).toBe(false);
  expect((await bench.call('GET', '/api/flashing')).body.mayFlash).toBe(true);
});

test('a paired phone publishes into the folder chosen at the bench machine, and cannot choose one itself', async () => {
  const bench = await openNetworkBench();
  const { cookie } = await pair(bench);
  const folder = temporaryFolder();
  const named = await bench.asPhone('POST', '/api/dataset', { folder }, { cookie });
  expect([named.status, named.body.code]).toEqual([403, 'dataset/bench-only']);
  expect((await bench.call('POST', '/api/dataset', { folder: 'burns' })).body.code).toBe('dataset/folder-not-whole');
  const done = (ask: () => Promise<Pick<Answer, 'body'>>) =>
    vi.waitUntil(
      async () => {
        const { body } = await ask();
        return body.phase !== 'publishing' && body;
      },
      { timeout: PATIENCE_MS },
    );
  expect((await bench.call('POST', '/api/dataset', { folder })).status).toBe(202);
  expect(await done(() => bench.call('GET', '/api/dataset'))).toMatchObject({ phase: 'done', folder, mayChoose: true });
  expect((await bench.asPhone('POST', '/api/dataset', {}, { cookie })).body.folder).toBe(folder);
  const seen = await done(() => bench.asPhone('GET', '/api/dataset', undefined, { cookie }));
  expect(seen).toMatchObject({ phase: 'done', folder, mayChoose: false });
});

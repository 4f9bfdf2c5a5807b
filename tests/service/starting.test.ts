import { once } from 'node:events';
import { request } from 'node:http';
import { createServer } from 'node:net';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { defaultFolder, readConfig } from '../../server/base/config.ts';
import { loadParts, refuseUnfitNode } from '../../server/base/start-up.ts';
import { openEventSource } from '../support/event-source.ts';
import { freePort, startService } from '../support/service-process.ts';
import { openTestStore } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** Returns the code of a refusal. */
function codeOf(work: () => unknown): string | undefined {
  try {
    work();
    return undefined;
  } catch (error) {
    return isAppError(error) ? error.code : String(error);
  }
}

test('the service prints its address last, answers there, and ends in order with a page open', async () => {
  const port = await freePort();
  const service = startService({ STOVEBENCH_DATA: temporaryFolder(), STOVEBENCH_PORT: port });
  const address = await service.address;
  expect(address).toBe(`http://127.0.0.1:${port}`);
  expect(service.printed.at(-1)).toBe(address);
  expect(await (await fetch(`${address}/api/health`)).json()).toMatchObject({
    status: 'ok',
    demo: false,
    timeScale: 1,
  });
  const page = await openEventSource(address);
  await page.until('snapshot');
  service.child.kill('SIGTERM');
  expect(await service.ended).toBe(0);
  expect(service.errors).toEqual([]);
});

test('a service that cannot close because a request never ends, ends at once at a second signal', async () => {
  const port = await freePort();
  const service = startService({ STOVEBENCH_DATA: temporaryFolder(), STOVEBENCH_PORT: port });
  await service.address;
  const upload = request({ port, method: 'POST', path: '/api/imports?name=endless.json' });
  upload.on('error', () => {});
  upload.setHeader('content-type', 'application/octet-stream');
  // The service answers it when it has received the request: stopped before that, it would have nothing to wait for.
  upload.setHeader('expect', '100-continue');
  upload.flushHeaders();
  await once(upload, 'continue');
  upload.write('{');
  // npm, the launcher and the terminal each forward a signal: those of the first second count as one.
  const again = setInterval(() => service.child.kill('SIGTERM'), 50);
  onTestFinished(() => clearInterval(again));
  expect(await service.ended).toBe(130);
});

test('a second service on the same data prints the address of the first, which continues', async () => {
  const folder = temporaryFolder();
  const first = startService({ STOVEBENCH_DATA: folder, STOVEBENCH_PORT: await freePort() });
  const address = await first.address;
  const second = startService({ STOVEBENCH_DATA: folder, STOVEBENCH_PORT: await freePort() });
  expect(await second.ended).toBe(1);
  expect(second.errors).toHaveLength(1);
  expect(second.errors[0]).toContain(
    `Another copy of the service is already using ${folder} (open ${address} instead)`,
  );
  expect((await fetch(`${address}/api/health`)).status).toBe(200);
});

test('a TCP port in use is refused with another one to try, in the language of the terminal', async () => {
  const other = createServer().listen(0, '127.0.0.1');
  onTestFinished(() => void other.close());
  await once(other, 'listening');
  const { port } = other.address() as { port: number };
  const env = { STOVEBENCH_DATA: temporaryFolder(), STOVEBENCH_PORT: String(port), LANG: 'fr_FR.UTF-8' };
  const service = startService(env);
  expect(await service.ended).toBe(1);
  expect(service.errors).toEqual([
    `stovebench: Le port ${port} de 127.0.0.1 est déjà pris par un autre programme. Fermez ce programme ou choisissez un autre port\u202f: STOVEBENCH_PORT=${port + 1} npm start.`,
  ]);
});

test('data of a newer version prevent the start', async () => {
  const folder = temporaryFolder();
  openTestStore(folder).close();
  const db = new Database(join(folder, 'stovebench.db'));
  db.pragma('user_version = 99');
  db.close();
  const service = startService({ STOVEBENCH_DATA: folder, STOVEBENCH_PORT: await freePort() });
  expect(await service.ended).toBe(1);
  expect(service.errors[0]).toContain('were written by a newer version (layout 99');
});

test('a data folder that cannot be created prevents the start', async () => {
  const file = join(temporaryFolder({ 'a-file': '' }), 'a-file');
  const service = startService({ STOVEBENCH_DATA: join(file, 'data'), STOVEBENCH_PORT: await freePort() });
  expect(await service.ended).toBe(1);
  expect(service.errors[0]).toContain(`The data folder ${join(file, 'data')} cannot be written`);
});

test.each([
  [{ STOVEBENCH_HOST: '0.0.0.0', STOVEBENCH_TLS_CERT: 'bench.pem' }, 'service/certificate-incomplete'],
  [{ STOVEBENCH_HOST: '0.0.0.0', STOVEBENCH_TLS_KEY: 'bench.key' }, 'service/certificate-incomplete'],
  [{ STOVEBENCH_TLS_CERT: 'bench.pem', STOVEBENCH_TLS_KEY: 'bench.key' }, 'service/certificate-unused'],
  [{ STOVEBENCH_PORT: '0' }, 'service/port-unreadable'],
  [{ STOVEBENCH_PORT: '70000' }, 'service/port-unreadable'],
  [{ STOVEBENCH_PORT: '42x' }, 'service/port-unreadable'],
  [{ STOVEBENCH_TIME_SCALE: 'fast' }, 'service/time-scale-unreadable'],
  [{ STOVEBENCH_TIME_SCALE: '0' }, 'service/time-scale-unreadable'],
])('%o is refused as %s', (env, code) => {
  expect(codeOf(() => readConfig(env))).toBe(code);
});

test('with nothing set, the service is on this machine only, on port 4280, at real speed', () => {
  expect(readConfig({ XDG_DATA_HOME: '/home/somebody/.data' }, 'linux')).toEqual({
    host: '127.0.0.1',
    port: 4280,
    folder: '/home/somebody/.data/stovebench',
    timeScale: 1,
  });
  expect(readConfig({ STOVEBENCH_HOST: '::1', STOVEBENCH_TIME_SCALE: '0,5' })).toMatchObject({
    host: '::1',
    timeScale: 0.5,
  });
  expect(defaultFolder({ LOCALAPPDATA: 'C:\\Data' }, 'win32')).toMatch(/^C:\\Data.Stovebench$/);
});

test.each([
  ['20.20.2', false],
  ['23.11.0', false],
  ['24.0.0', true],
  ['26.3.9', true],
  ['26.4.0', false],
  ['27.0.0', false],
])('Node %s may run the service: %s', (version, fit) => {
  expect(codeOf(() => refuseUnfitNode(version))).toBe(fit ? undefined : 'service/node-unfit');
});

test('a native module that does not load is named', async () => {
  const broken = () =>
    Promise.reject(Object.assign(new Error('invalid ELF header\nmore'), { code: 'ERR_DLOPEN_FAILED' }));
  await expect(loadParts(broken)).rejects.toMatchObject({
    code: 'service/part-missing',
    params: { part: 'ERR_DLOPEN_FAILED', raw: 'invalid ELF header' },
  });
});

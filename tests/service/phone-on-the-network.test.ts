import { once } from 'node:events';
import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { json } from 'node:stream/consumers';
import { expect, onTestFinished, test } from 'vitest';
import { readConfig } from '../../server/base/config.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { serve } from '../../server/serve.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { freePort, startService } from '../support/service-process.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

async function serveWith(env: Record<string, string>) {
  const port = await freePort();
  const config = readConfig({ STOVEBENCH_DATA: temporaryFolder(), STOVEBENCH_PORT: port, ...env });
  const serving = await serve({
    config,
    clock: createFakeClock(),
    ports: serialPortFactory,
    pageFolder: temporaryFolder(),
  });
  onTestFinished(() => serving.app.close());
  return { ...serving, port: Number(port) };
}

interface Asked {
  method?: string;
  headers?: Record<string, string>;
  body?: object;
}

async function ask(url: string, { method = 'GET', headers = {}, body }: Asked = {}) {
  const { protocol } = new URL(url);
  const request = (protocol === 'https:' ? httpsRequest : httpRequest)(url, {
    method,
    rejectUnauthorized: false,
    headers: { ...headers, ...(body && { 'content-type': 'application/json' }) },
  } as object);
  request.end(body && JSON.stringify(body));
  const [response] = await once(request, 'response');
  const answer = (await json(response)) as Record<string, unknown>;
  return { status: response.statusCode as number, headers: response.headers, body: answer };
}

/** For tests only: its key is public here. Made with openssl for `bench.test`, valid for a hundred years. */
const certificate = {
  STOVEBENCH_TLS_CERT: join(import.meta.dirname, 'certificate', 'bench.test.pem'),
  STOVEBENCH_TLS_KEY: join(import.meta.dirname, 'certificate', 'bench.test.key'),
};

const addressOfTheNetwork = Object.values(networkInterfaces())
  .flat()
  .find((entry) => entry?.family === 'IPv4' && !entry.internal)?.address;

test.skipIf(!addressOfTheNetwork)(
  'an address of the network is opened in addition to loopback, and this machine itself is recognised at both',
  async () => {
    const host = addressOfTheNetwork!;
    const { address, phoneAddresses, port } = await serveWith({ STOVEBENCH_HOST: host });
    expect(address).toBe(`http://127.0.0.1:${port}`);
    expect(phoneAddresses).toEqual([`http://${host}:${port}`]);
    expect((await ask(`${address}/api/pairing`)).body.you).toBe('bench');
    expect((await ask(`${phoneAddresses[0]}/api/pairing`)).body.you).toBe('bench');
    expect((await ask(`${phoneAddresses[0]}/api/burns`, { headers: { via: '1.1 somebody' } })).status).toBe(401);
  },
);

test('with every address open, this machine is still reached by loopback', async () => {
  const { address, port } = await serveWith({ STOVEBENCH_HOST: '0.0.0.0' });
  expect(address).toBe(`http://127.0.0.1:${port}`);
  expect((await ask(`${address}/api/pairing`)).body).toMatchObject({ you: 'bench', network: { secure: false } });
});

test('with the person’s own certificate phones get https on the next port, with a cookie for https only', async () => {
  const { address, phoneAddresses, port } = await serveWith({ STOVEBENCH_HOST: '0.0.0.0', ...certificate });
  expect(phoneAddresses).toEqual([`https://bench.test:${port + 1}`]);
  const phonesAddress = `https://127.0.0.1:${port + 1}`;
  const host = `bench.test:${port + 1}`;
  expect((await ask(`${phonesAddress}/api/burns`, { headers: { host } })).status).toBe(401);
  const { code } = (await ask(`${address}/api/pairing/code`, { method: 'POST' })).body;
  const origin = `https://${host}`;
  const paired = await ask(`${phonesAddress}/api/pairing`, {
    method: 'POST',
    headers: { host, origin },
    body: { code },
  });
  expect(paired.status).toBe(201);
  const set = String(paired.headers['set-cookie']);
  expect(set).toMatch(/; Secure$/);
  const cookie = set.split(';')[0]!;
  expect((await ask(`${phonesAddress}/api/burns`, { headers: { host, cookie } })).status).toBe(200);
});

test('an invalid certificate stops the start with an error', async () => {
  const folder = temporaryFolder({ 'a.pem': 'no certificate', 'a.key': 'no key' });
  const files = { STOVEBENCH_TLS_CERT: join(folder, 'a.pem'), STOVEBENCH_TLS_KEY: join(folder, 'a.key') };
  await expect(serveWith({ STOVEBENCH_HOST: '0.0.0.0', ...files })).rejects.toMatchObject({
    code: 'service/certificate-unreadable',
  });
});

test('the terminal prints the address for a phone, and makes the code for it', async () => {
  const port = await freePort();
  const env = { STOVEBENCH_DATA: temporaryFolder(), STOVEBENCH_PORT: port, STOVEBENCH_HOST: '0.0.0.0' };
  const service = startService(env);
  const address = await service.address;
  expect(service.printed.at(-2)).toContain('a phone on the same network opens');
  const run = async (...args: string[]) => {
    const command = startService(env, join('server', 'command-line', 'stovebench.ts'), ['pair', ...args]);
    expect([await command.ended, command.errors.slice(1)]).toEqual([0, []]);
    return command.printed.length > 0 ? JSON.parse(command.printed.join('')) : undefined;
  };
  const { code, leftS } = await run();
  expect(leftS).toBe(300);
  const paired = await ask(`${address}/api/pairing`, { method: 'POST', body: { code, name: 'Yard' } });
  expect(paired.body.name).toBe('Yard');
  expect((await run('--list')).devices).toEqual([expect.objectContaining({ name: 'Yard' })]);
  await run('--revoke', String(paired.body.id));
  expect((await run('--list')).devices).toEqual([]);
});

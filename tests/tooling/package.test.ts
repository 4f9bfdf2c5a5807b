import { spawn } from 'node:child_process';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { expect, onTestFinished, test } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { installedPackage } from '../support/installed-package.ts';

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

test('the packed tarball, installed in an empty folder, serves the page and the data, and stops when told', async () => {
  const { folder, command } = await installedPackage();
  const port = await freePort();
  const service = spawn(command, ['serve'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, STOVEBENCH_PORT: String(port), STOVEBENCH_DATA: join(folder, 'data') },
  });
  onTestFinished(() => void service.kill('SIGKILL'));
  let complaints = '';
  service.stderr.on('data', (text) => {
    complaints += text;
  });
  const address = `http://127.0.0.1:${port}`;
  for await (const line of createInterface(service.stdout)) if (line === address) break;
  expect(complaints).toBe('');

  expect(await (await fetch(address)).text()).toContain('<title>Stovebench</title>');
  expect(await (await fetch(`${address}/api/health`)).json()).toMatchObject({
    status: 'ok',
    version: manifest.version,
  });

  service.kill('SIGTERM');
  expect(await once(service, 'exit')).toEqual([0, null]);
});

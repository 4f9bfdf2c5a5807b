import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, symlinkSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { expect, onTestFinished, test } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { buildPackage } from '../../scripts/build/package.ts';
import { repositoryRoot, temporaryFolder, temporaryProject } from '../support/temporary-folder.ts';

/** Installs the tarball as npm would, with the packages it depends on and no others, but from this repository's copies. */
function installTarball(tarball: string): string {
  const folder = temporaryFolder();
  const modules = join(folder, 'node_modules');
  mkdirSync(join(modules, 'stovebench'), { recursive: true });
  execFileSync('tar', ['-xzf', tarball, '-C', join(modules, 'stovebench'), '--strip-components=1']);
  for (const name of Object.keys(manifest.dependencies)) {
    if (name.startsWith('@')) mkdirSync(join(modules, name, '..'), { recursive: true });
    symlinkSync(join(repositoryRoot, 'node_modules', name), join(modules, name));
  }
  return folder;
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

test('the packed tarball, installed in an empty folder, serves the page and the data, and stops when told', async () => {
  const root = temporaryProject(
    ['server', 'shared', 'firmware-protocol', 'scripts', 'package.json', 'tsconfig.json', 'README.md', 'LICENSE'],
    { 'dist/web/index.html': '<!doctype html><title>Stovebench</title>' },
  );
  await buildPackage(root);
  execFileSync('npm', ['pack', '--silent'], { cwd: root, stdio: 'pipe' });
  const [tarball] = readdirSync(root).filter((name) => name.endsWith('.tgz'));
  const folder = installTarball(join(root, tarball!));

  const port = await freePort();
  const command = join(folder, 'node_modules', 'stovebench', manifest.bin.stovebench);
  const service = spawn(process.execPath, [command, 'serve'], {
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

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { text } from 'node:stream/consumers';
import { test as base, expect, onTestFinished } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { installedPackage } from '../support/installed-package.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';

const sampleFile = join(repositoryRoot, 'shared/contract/sample-burn-record.json');

// biome-ignore lint/correctness/noEmptyPattern: vitest reads from the pattern which fixtures this one needs: none
const test = base.extend('installed', { scope: 'file' }, async ({}, { onCleanup }) => {
  const ends: (() => void)[] = [];
  onCleanup(() => {
    for (const end of ends) end();
  });
  return installedPackage((end) => ends.push(end));
});

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

test('the packed tarball, installed in an empty folder, computes, imports, exports and reports', async ({
  installed: { command },
}) => {
  const folder = temporaryFolder();
  const run = async (...args: string[]) => {
    const child = spawn(command, args, {
      cwd: folder,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, LC_ALL: 'C', STOVEBENCH_DATA: join(folder, 'data') },
    });
    onTestFinished(() => void child.kill('SIGKILL'));
    const [stdout, stderr, [status]] = await Promise.all([text(child.stdout), text(child.stderr), once(child, 'exit')]);
    return { status, stdout, stderr };
  };
  const [help, surveyed, analysed, imported] = await Promise.all([
    run('--help'),
    run('survey', folder),
    run('analyse', sampleFile),
    run('import', sampleFile),
  ]);
  expect(help).toMatchObject({ status: 0, stderr: '', stdout: expect.stringContaining('usage: stovebench') });
  expect(surveyed).toMatchObject({ status: 2, stdout: '' });
  expect(surveyed.stderr).toContain(`npm install @duckdb/node-api@${manifest.peerDependencies['@duckdb/node-api']}`);
  expect(JSON.parse(analysed.stdout)).toMatchObject({ burnId: sample.id });
  expect(JSON.parse(imported.stdout).burns).toMatchObject([{ id: sample.id, state: 'new' }]);
  const ends = [
    await run('export', 'latest', '--output', 'heron.zip'),
    await run('report', 'latest', '--output', 'heron.pdf'),
  ];
  expect(ends.map(({ status }) => status)).toEqual([0, 0]);
  expect(JSON.parse((await run('verify')).stdout)).toMatchObject({ ok: true });
  expect(readdirSync(folder)).toEqual(expect.arrayContaining(['heron.zip', 'heron.pdf']));
});

test('the packed tarball, installed in an empty folder, serves the page and the data, and stops at a signal', async ({
  installed: { command },
}) => {
  const folder = temporaryFolder();
  const port = await freePort();
  const service = spawn(command, ['serve'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, STOVEBENCH_PORT: String(port), STOVEBENCH_DATA: join(folder, 'data') },
  });
  onTestFinished(() => void service.kill('SIGKILL'));
  let complaints = '';
  service.stderr.on('data', (chunk) => {
    complaints += chunk;
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

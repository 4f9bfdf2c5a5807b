import { execFileSync, spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { buildPackage } from '../../scripts/build/package.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { repositoryRoot, temporaryFolder, temporaryProject } from '../support/temporary-folder.ts';

const sampleFile = join(repositoryRoot, 'shared/contract/sample-burn-record.json');

/** npm works on whatever it has at hand; what it has not, it fetches as on any builder's machine. */
const npm = (cwd: string, ...args: string[]) => execFileSync('npm', args, { cwd, stdio: 'pipe', encoding: 'utf8' });

test('the packed tarball, installed by npm in an empty folder, computes, brings in, exports and reports', async () => {
  const root = temporaryProject(
    ['server', 'shared', 'firmware-protocol', 'scripts', 'package.json', 'tsconfig.json', 'README.md', 'LICENSE'],
    { 'dist/web/index.html': '<!doctype html><title>Stovebench</title>' },
  );
  await buildPackage(root);
  npm(root, 'pack', '--silent');
  const [tarball] = readdirSync(root).filter((name) => name.endsWith('.tgz'));
  const folder = temporaryFolder({ 'package.json': '{"private": true}' });
  npm(folder, 'install', '--prefer-offline', '--ignore-scripts', '--no-audit', '--no-fund', join(root, tarball!));

  const run = (...args: string[]) => {
    const data = join(folder, 'data');
    const { status, stdout, stderr } = spawnSync(join(folder, 'node_modules', '.bin', 'stovebench'), args, {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, LC_ALL: 'C', STOVEBENCH_DATA: data },
    });
    return { status, stdout, stderr };
  };
  expect(run('--help')).toMatchObject({ status: 0, stderr: '', stdout: expect.stringContaining('usage: stovebench') });
  expect(JSON.parse(run('analyse', sampleFile).stdout)).toMatchObject({ burnId: sample.id });
  expect(JSON.parse(run('import', sampleFile).stdout).burns).toMatchObject([{ id: sample.id, state: 'new' }]);
  expect(run('export', 'latest', '--output', 'heron.zip').status).toBe(0);
  expect(run('report', 'latest', '--output', 'heron.pdf').status).toBe(0);
  expect(JSON.parse(run('verify').stdout)).toMatchObject({ ok: true });
  expect(readdirSync(folder)).toEqual(expect.arrayContaining(['heron.zip', 'heron.pdf']));
}, 180_000);

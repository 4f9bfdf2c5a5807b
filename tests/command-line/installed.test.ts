import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { installedPackage } from '../support/installed-package.ts';
import { runProgram } from '../support/run-program.ts';
import { repositoryRoot } from '../support/temporary-folder.ts';

const sampleFile = join(repositoryRoot, 'shared/contract/sample-burn-record.json');

test('the packed tarball, installed in an empty folder, computes, brings in, exports and reports', async () => {
  const { folder, command } = await installedPackage();
  const run = (...args: string[]) =>
    runProgram(command, args, {
      cwd: folder,
      env: { ...process.env, LC_ALL: 'C', STOVEBENCH_DATA: join(folder, 'data') },
    });
  expect(run('--help')).toMatchObject({ status: 0, stderr: '', stdout: expect.stringContaining('usage: stovebench') });
  expect(JSON.parse(run('analyse', sampleFile).stdout)).toMatchObject({ burnId: sample.id });
  expect(JSON.parse(run('import', sampleFile).stdout).burns).toMatchObject([{ id: sample.id, state: 'new' }]);
  expect(run('export', 'latest', '--output', 'heron.zip').status).toBe(0);
  expect(run('report', 'latest', '--output', 'heron.pdf').status).toBe(0);
  expect(JSON.parse(run('verify').stdout)).toMatchObject({ ok: true });
  expect(readdirSync(folder)).toEqual(expect.arrayContaining(['heron.zip', 'heron.pdf']));
}, 180_000);

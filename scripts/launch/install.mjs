import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { run } from './run.mjs';

/** npm writes this file last, so an interrupted install has none. */
const INSTALLED_LOCK = join('node_modules', '.package-lock.json');

/**
 * @param {string} file
 * @returns {Record<string, { version: string, optional?: boolean }>}
 */
function lockedPackages(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
  } catch {
    return {};
  }
}

/**
 * Whether node_modules contains every package of the lock file at its version. Optional ones are skipped: which of them
 * belong here depends on the system.
 * @param {string} root
 */
export function isInstalled(root) {
  const installed = lockedPackages(join(root, INSTALLED_LOCK));
  return Object.entries(lockedPackages(join(root, 'package-lock.json'))).every(
    ([path, { version, optional }]) => path === '' || optional || installed[path]?.version === version,
  );
}

/**
 * Installs exactly what is in the lock file, including development packages: the page is built on this machine.
 * @param {string} root
 */
export function install(root) {
  rmSync(join(root, INSTALLED_LOCK), { force: true });
  // Under `npm run`, npm sets the path of itself: the same npm, with no search along PATH and no .cmd file on Windows.
  const cli = process.env.npm_execpath;
  const [command, first] = cli?.endsWith('npm-cli.js') && existsSync(cli) ? [process.execPath, [cli]] : ['npm', []];
  const args = [
    'ci',
    '--include=dev',
    '--include=optional',
    '--prefer-offline',
    '--no-audit',
    '--no-fund',
    '--loglevel=error',
    // npm's default pauses (10 s, then 60 s) would make a person without a network wait for more than a minute.
    '--fetch-retry-mintimeout=1000',
    '--fetch-retry-maxtimeout=5000',
  ];
  return run(command, [...first, ...args], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: command === 'npm' && process.platform === 'win32',
  });
}

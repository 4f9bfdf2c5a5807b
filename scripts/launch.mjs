// Any Node can start this file. It finds a Node that can run the service, installs what is missing,
// and hands over: `node scripts/launch.mjs server/main.ts ...`. Everything it says goes to standard error,
// so that a command whose output is read by another program prints its own words only.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const say = (text) => process.stderr.write(`stovebench: ${text}\n`);

/** 24 runs TypeScript directly and loads the database; from 26.4 on serial data arrives late (serialport issue 3148). */
function isInRange(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major === 24 || major === 25 || (major === 26 && minor < 4);
}

function installIfMissing() {
  const lockFile = join(root, 'package-lock.json');
  if (!existsSync(lockFile)) return;
  const wanted = createHash('sha256').update(readFileSync(lockFile)).digest('hex');
  const stamp = join(root, 'node_modules', '.installed-lock');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('installing the packages this version needs (once, a minute or so) ...');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const run = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (run.status !== 0) {
    say('the packages could not be installed. Connect this machine to the internet once and run the same command again.');
    process.exit(1);
  }
  writeFileSync(stamp, wanted);
}

function nodeToUse() {
  if (isInRange(process.versions.node)) return process.execPath;
  const folder = join(root, 'node_modules', `node-${process.platform === 'win32' ? 'win' : process.platform}-${process.arch}`);
  const packaged = join(folder, 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
  if (existsSync(packaged)) return packaged;
  say(
    `this machine has Node ${process.versions.node}, and Stovebench needs Node 24 (24.0 up to 26.3). ` +
      `npm carries no Node 24 for ${process.platform}-${process.arch}; install Node 24 from nodejs.org and run the same command again.`,
  );
  process.exit(1);
}

installIfMissing();
const [script, ...args] = process.argv.slice(2);
const child = spawn(nodeToUse(), [join(root, script), ...args], { stdio: 'inherit' });
// The terminal sends Ctrl-C to both processes; this one waits so that the service can close its database.
process.on('SIGINT', () => {});
process.on('SIGTERM', () => child.kill('SIGTERM'));
child.on('exit', (code, signal) => process.exit(code ?? (signal ? 128 : 1)));

// Any Node from 14 on can start this file: `node scripts/launch.mjs server/main.ts ...`. It installs what is missing,
// finds a Node that can run the service and starts the script with it. All its own output goes to standard error, so
// that a command whose output is read by another program prints only its own.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findNode, handOver, print, refuseUnfitMachine, serviceOptions, stop } from './launch/hand-over.mjs';
import { install, isInstalled } from './launch/install.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const [script = '', ...args] = process.argv.slice(2);

refuseUnfitMachine();

if (!isInstalled(root) || !findNode(root)) {
  print('installing the packages this version needs (once, a minute or so) ...');
  const { code, error } = await install(root);
  if (error)
    stop('npm was not found. Install Node 24 with npm from https://nodejs.org and run the same command again.');
  if (code > 128) process.exit(code);
  if (code !== 0) {
    stop(
      'the packages could not be installed; what npm said stands above. Connect this machine to the internet once, ' +
        'make sure the disk has 1 GB free, and run the same command again: it starts over cleanly.',
    );
  }
  print('packages installed.');
}

await handOver(root, join(root, script), args, script === 'scripts/start.ts' ? serviceOptions : []);

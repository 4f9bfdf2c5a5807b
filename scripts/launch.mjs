// Any Node from 14 on can start this file: `node scripts/launch.mjs server/main.ts ...`. It installs what is missing,
// finds a Node that can run the service and hands over. Everything it says goes to standard error, so that a command whose
// output is read by another program prints its own words only.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { canRunService, findPackagedNode, whyNot } from './launch/choose-node.mjs';
import { install, isInstalled } from './launch/install.mjs';
import { run } from './launch/run.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const [script = '', ...args] = process.argv.slice(2);

/** @param {string} text */
const say = (text) => process.stderr.write(`stovebench: ${text}\n`);

/** @param {string} text @returns {never} */
function stop(text) {
  say(text);
  process.exit(1);
}

const refusal = whyNot(process.versions.node, process.platform, process.arch);
if (refusal) stop(refusal);

const findNode = () =>
  canRunService(process.versions.node) ? process.execPath : findPackagedNode(root, process.platform, process.arch);

if (!isInstalled(root) || !findNode()) {
  say('installing the packages this version needs (once, a minute or so) ...');
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
  say('packages installed.');
}

const node = findNode();
const remedy = 'Install Node 24 from https://nodejs.org and run the same command again.';
if (!node) stop(`npm did not install the Node that it carries for ${process.platform}-${process.arch}. ${remedy}`);
const { code, error } = await run(node, [join(root, script), ...args], { stdio: 'inherit' });
if (error) stop(`Node at ${node} could not be started (${error.message}). ${remedy}`);
process.exit(code);

import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** Systems for which npm provides Node 24 itself (optionalDependencies in package.json). */
const PACKAGED = ['linux-x64', 'linux-arm64', 'darwin-x64', 'win32-x64'];

/**
 * 24 runs TypeScript directly and loads the database; from 26.4 on serial data arrives late
 * (https://github.com/serialport/node-serialport/issues/3148).
 * @param {string} version as in process.versions.node
 */
export function canRunService(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major === 24 || major === 25 || (major === 26 && minor < 4);
}

/** @param {string} platform @param {string} arch */
const npmCarriesNodeFor = (platform, arch) => PACKAGED.includes(`${platform}-${arch}`);

/**
 * The packaged Node of this system, or undefined while npm has not installed it, or provides none. The binary is looked
 * up inside its package because npm 10 leaves `node_modules/.bin/node` unlinked.
 * @param {string} root folder of our package.json
 * @param {string} platform @param {string} arch
 * @returns {string | undefined} its path
 */
export function findPackagedNode(root, platform, arch) {
  if (!npmCarriesNodeFor(platform, arch)) return undefined;
  const windows = platform === 'win32';
  try {
    const manifest = createRequire(join(root, 'package.json')).resolve(
      `node-${windows ? 'win' : platform}-${arch}/package.json`,
    );
    return join(dirname(manifest), 'bin', windows ? 'node.exe' : 'node');
  } catch {
    return undefined;
  }
}

/**
 * The sentence for a machine that cannot start the service, or undefined for one that can: with its own Node, or with
 * the packaged one once npm has installed it.
 * @param {string} version @param {string} platform @param {string} arch
 */
export function whyNot(version, platform, arch) {
  if (canRunService(version)) return undefined;
  const remedy = 'Install Node 24 from https://nodejs.org and run the same command again.';
  if (Number(version.split('.')[0]) < 20) {
    return `this machine has Node ${version}; Stovebench needs Node 20 or newer to install itself. ${remedy}`;
  }
  if (npmCarriesNodeFor(platform, arch)) return undefined;
  return `this machine has Node ${version}, Stovebench runs on Node 24.0 up to 26.3, and npm carries no Node 24 for ${platform}-${arch}. ${remedy}`;
}

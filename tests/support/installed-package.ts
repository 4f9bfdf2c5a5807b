import { chmodSync, existsSync, mkdirSync, readdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import manifest from '../../package.json' with { type: 'json' };
import { buildPackage } from '../../scripts/build/package.ts';
import { outputOf } from './run-program.ts';
import { repositoryRoot, temporaryFolder, temporaryProject } from './temporary-folder.ts';

const packed = [
  'server',
  'shared',
  'firmware-protocol',
  'scripts',
  'package.json',
  'tsconfig.json',
  'README.md',
  'LICENSE',
];

/**
 * Installs npm's tarball of this package into an empty folder: unpacked, with its commands, and with its dependencies
 * and no other packages. These are copies from this repository, since a test must not need the network.
 * @param endsWith registers the clean-up
 * @returns the path of the installed command `stovebench`
 */
export async function installedPackage(endsWith: (end: () => void) => void): Promise<{ readonly command: string }> {
  const page = { 'dist/web/index.html': '<!doctype html><title>Stovebench</title>' };
  const root = temporaryProject(packed, page, endsWith);
  await buildPackage(root);
  outputOf('npm', ['pack', '--silent', '--offline', '--no-update-notifier'], { cwd: root });
  const tarball = readdirSync(root).find((name) => name.endsWith('.tgz'));

  const folder = temporaryFolder({}, endsWith);
  const modules = join(folder, 'node_modules');
  const own = join(modules, manifest.name);
  mkdirSync(own, { recursive: true });
  outputOf('tar', ['-xzf', join(root, tarball!), '-C', own, '--strip-components=1']);
  // Of the packages with a Node, only that of this system is installed.
  const needed = Object.keys({ ...manifest.dependencies, ...manifest.optionalDependencies });
  for (const name of needed.filter((name) => existsSync(join(repositoryRoot, 'node_modules', name)))) {
    if (name.startsWith('@')) mkdirSync(join(modules, name, '..'), { recursive: true });
    symlinkSync(join(repositoryRoot, 'node_modules', name), join(modules, name));
  }
  const command = join(modules, '.bin', 'stovebench');
  mkdirSync(join(modules, '.bin'));
  chmodSync(join(own, manifest.bin.stovebench), 0o755);
  symlinkSync(join(own, manifest.bin.stovebench), command);
  return { command };
}

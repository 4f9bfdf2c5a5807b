import { createHash } from 'node:crypto';
import { existsSync, globSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runTool } from '../tools/run-tool.ts';
import { drawIcons } from './icons.ts';
import { listShell } from './shell.ts';

const repositoryRoot = join(import.meta.dirname, '..', '..');

/**
 * All inputs of the page: its own files, the code it shares with the service, the guide, the packages' versions, the
 * build.
 */
const INPUTS = ['web/**/*', 'shared/**/*', 'firmware-protocol/guide/*', 'package-lock.json', 'scripts/build/*.ts'];

function hashOfInputs(root: string): string {
  const hash = createHash('sha256');
  for (const path of globSync(INPUTS, { cwd: root }).sort()) {
    if (!statSync(join(root, path)).isFile()) continue;
    hash.update(`${path.replaceAll('\\', '/')}\0`).update(readFileSync(join(root, path)));
  }
  return hash.digest('hex');
}

/**
 * Builds the page into dist/web, the folder that the service serves, unless the existing one was built from the same
 * inputs.
 * @param print prints one line of progress, only when a build is needed
 * @param root the repository
 * @throws when the build fails, with the output of Vite
 */
export async function ensurePageBuilt(
  print: (line: string) => void = console.error,
  root: string = repositoryRoot,
): Promise<void> {
  // Next to the page, not in it: this file must not be served.
  const stamp = join(root, 'dist', 'web.inputs');
  const wanted = hashOfInputs(root);
  const built = existsSync(join(root, 'dist', 'web', 'index.html')) && existsSync(stamp);
  if (built && readFileSync(stamp, 'utf8') === wanted) return;

  print('building the page ...');
  rmSync(stamp, { force: true });
  // In a separate process, so that the service that runs next does not hold the bundler's memory.
  const { exitCode, stdout, stderr } = await runTool(root, 'vite/bin/vite.js', ['build', 'web', '--logLevel', 'warn'], {
    // A test runner sets another one, with which Vite builds a page for debugging.
    NODE_ENV: 'production',
  });
  if (exitCode !== 0) throw new Error(`the page could not be built:\n${stdout}${stderr}`);
  const folder = join(root, 'dist', 'web');
  drawIcons(folder);
  listShell(folder);
  writeFileSync(stamp, wanted);
}

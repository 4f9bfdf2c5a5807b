import { createHash } from 'node:crypto';
import { existsSync, globSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from '../launch/run.mjs';

const root = join(import.meta.dirname, '..', '..');

/** Folder of the built page, as the service serves it. */
export const PAGE_FOLDER = join(root, 'dist', 'web');

/** Beside the page, not in it: nobody should be served this file. */
const STAMP = join(root, 'dist', 'web.inputs');

/** Everything that goes into the page: its own files, the code it shares with the service, and the packages' versions. */
const INPUTS = ['web/**/*', 'shared/**/*', 'package-lock.json'];

function hashOfInputs(): string {
  const hash = createHash('sha256');
  for (const path of globSync(INPUTS, { cwd: root }).sort()) {
    if (!statSync(join(root, path)).isFile()) continue;
    hash.update(`${path.replaceAll('\\', '/')}\0`).update(readFileSync(join(root, path)));
  }
  return hash.digest('hex');
}

/**
 * Builds the page into dist/web unless what is there was made from the same inputs.
 * @param say takes one line of progress, only when there is something to build
 * @throws when the build fails; what Vite said stands on standard error
 */
export async function ensurePageBuilt(say: (line: string) => void): Promise<void> {
  const wanted = hashOfInputs();
  const fresh =
    existsSync(join(PAGE_FOLDER, 'index.html')) && existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted;
  if (fresh) return;

  say('building the page ...');
  rmSync(STAMP, { force: true });
  const vite = join(root, 'node_modules', 'vite', 'bin', 'vite.js');
  // In a process of its own: the service that runs next should not carry a bundler's memory.
  const { code } = await run(process.execPath, [vite, 'build', join(root, 'web'), '--logLevel', 'warn'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
  });
  if (code !== 0) throw new Error('the page could not be built; what Vite said stands above');
  mkdirSync(join(root, 'dist'), { recursive: true });
  writeFileSync(STAMP, wanted);
}

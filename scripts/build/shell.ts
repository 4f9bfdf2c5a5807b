import { createHash } from 'node:crypto';
import { globSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const WORKER = 'shell-worker.js';
/** Separates the list from the worker's own code. */
const LIST_END = '/* the worker */';

/**
 * Writes the list of all files of the built page, each with its SHA-256, in front of the worker that caches them on a
 * phone. The worker's text thus changes whenever any file does, by which browsers detect a new page.
 * @param folder of the built page
 */
export function listShell(folder: string): void {
  const files = Object.fromEntries(
    globSync('**/*', { cwd: folder })
      .map((path) => path.replaceAll('\\', '/'))
      .filter((path) => path !== WORKER && statSync(join(folder, path)).isFile())
      .sort()
      .map((path) => [
        `/${path}`,
        createHash('sha256')
          .update(readFileSync(join(folder, path)))
          .digest('hex'),
      ]),
  );
  const version = createHash('sha256').update(JSON.stringify(files)).digest('hex').slice(0, 16);
  const worker = readFileSync(join(folder, WORKER), 'utf8').split(LIST_END).at(-1)!;
  writeFileSync(join(folder, WORKER), `const SHELL=${JSON.stringify({ version, files })};${LIST_END}${worker}`);
}

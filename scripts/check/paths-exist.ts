import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Check, findingOfLines } from './check.ts';
import { CODE_FOLDERS } from './source-files.ts';

/** Letters, dots and stars between slashes, none of them in front: an address (`/api`) or a package (`@fastify/static`) is no path. */
const PATH = /^[\w.*-]+(?:\/[\w.*-]+)*\/?$/;
/** Created by tools, and so missing before those have run. */
const MADE = ['dist', 'node_modules'];

/**
 * Checks that every path between backticks in DEVELOPERS.md is that of a file or folder, from the top of the
 * repository. Text with a slash that begins with a folder of code, or ends with a slash or a file extension, is such a
 * path. Code between fences is ignored.
 */
export const pathsExistCheck: Check = {
  name: 'paths exist',
  run: async (root) => {
    const text = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8').replace(/^```.*?^```/gms, (code) =>
      code.replace(/[^\n]/g, ''),
    );
    const lines = text.split('\n').flatMap((line, index) => {
      const named = [...line.matchAll(/`([^`]+)`/g)].map(([, found]) => found!).filter(isPath);
      return named.filter((path) => globSync(path, { cwd: root }).length === 0).map((path) => `${index + 1}: ${path}`);
    });
    return findingOfLines(lines, 'DEVELOPERS.md names what does not exist:');
  },
};

function isPath(text: string): boolean {
  const [first = '', ...rest] = text.split('/');
  if (!PATH.test(text) || rest.length === 0 || MADE.includes(first)) return false;
  return (CODE_FOLDERS as readonly string[]).includes(first) || /(?:\/|\.\w+)$/.test(text);
}

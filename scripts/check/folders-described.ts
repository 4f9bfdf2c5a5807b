import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type Check, findingOfLines } from './check.ts';
import { CODE_FOLDERS, sourceFiles } from './source-files.ts';

/**
 * Checks that every folder with code has its sentence in the table of folders of DEVELOPERS.md, and that none is left
 * for a removed folder. A folder of tests is named after what it tests.
 */
export const foldersDescribedCheck: Check = {
  name: 'folders described',
  run: async (root) => {
    const text = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    const described = new Set([...text.matchAll(/^\| `([\w/-]+)\/` \| \S.*\|$/gm)].map(([, folder]) => folder!));
    const folders = new Set(
      CODE_FOLDERS.filter((folder) => folder !== 'tests').flatMap((folder) => sourceFiles(root, folder).map(dirname)),
    );
    const lines = [
      ...[...folders].filter((folder) => !described.has(folder)).map((folder) => `no sentence for ${folder}/`),
      ...[...described].filter((folder) => !folders.has(folder)).map((folder) => `no code in ${folder}/`),
    ].sort();
    return findingOfLines(lines, 'DEVELOPERS.md, table of folders:');
  },
};

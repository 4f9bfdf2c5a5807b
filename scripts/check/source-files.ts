import { globSync } from 'node:fs';

/** The folders that hold code. Each has a tsconfig of its own: one for all would let `shared` use `document` and `process`. */
export const CODE_FOLDERS = ['firmware-protocol', 'shared', 'server', 'web', 'tests', 'scripts'] as const;

/**
 * Every source file of a folder, as a path from `root` with forward slashes. A check compares it with the files that
 * its tool read, because a tool that reads none by mistake finds nothing and passes.
 */
export function sourceFiles(root: string, folder: string): string[] {
  return globSync(`${folder}/**/*.{ts,tsx,mjs}`, { cwd: root }).map((path) => path.replaceAll('\\', '/'));
}

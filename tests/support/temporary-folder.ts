import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

export const repositoryRoot = join(import.meta.dirname, '..', '..');

/**
 * A folder of the running test's own, removed when it ends.
 * @param files contents of the files it starts with, by path
 * @param endsWith takes what is to be done at that end
 * @returns its path
 */
export function temporaryFolder(
  files: Readonly<Record<string, string>> = {},
  endsWith: (end: () => void) => void = onTestFinished,
): string {
  const root = mkdtempSync(join(tmpdir(), 'stovebench-test-'));
  endsWith(() => rmSync(root, { recursive: true, force: true }));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return root;
}

/** Takes files or folders of the repository over into `root`, at the same path. */
export function copyFromRepository(root: string, paths: readonly string[]): void {
  for (const path of paths) cpSync(join(repositoryRoot, path), join(root, path), { recursive: true });
}

/**
 * A folder that looks like this repository to a tool: its packages, some of its configuration files, and given sources.
 * The packages are the repository's own: run nothing in it that installs.
 */
export function temporaryProject(
  copied: readonly string[],
  sources: Readonly<Record<string, string>>,
  endsWith: (end: () => void) => void = onTestFinished,
): string {
  const root = temporaryFolder(sources, endsWith);
  symlinkSync(join(repositoryRoot, 'node_modules'), join(root, 'node_modules'));
  copyFromRepository(root, copied);
  return root;
}

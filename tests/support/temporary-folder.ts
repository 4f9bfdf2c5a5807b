import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

export const repositoryRoot = join(import.meta.dirname, '..', '..');

/**
 * Creates a folder for the running test, which is removed when the test ends.
 * @param files initial contents of its files, by path
 * @param endsWith registers the clean-up
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

/** Copies files or folders of the repository to `root`, at the same path. */
export function copyFromRepository(root: string, paths: readonly string[]): void {
  for (const path of paths) cpSync(join(repositoryRoot, path), join(root, path), { recursive: true });
}

/**
 * Creates a folder that looks like this repository to a tool: its packages, some of its configuration files, and given
 * sources. The packages are those of the repository: nothing that installs packages may run in it.
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

import { realpathSync } from 'node:fs';
import { isAbsolute, relative } from 'node:path';
import { runTool } from '../tools/run-tool.ts';
import type { Check, Finding } from './check.ts';
import { CODE_FOLDERS, sourceFiles } from './source-files.ts';

/** Runs in Node, not in the page, and is checked with the scripts. */
const CHECKED_WITH_SCRIPTS = 'web/vite.config.ts';

async function checkFolder(root: string, folder: string): Promise<Finding> {
  const expected = sourceFiles(root, folder).filter((path) => path !== CHECKED_WITH_SCRIPTS);
  if (expected.length === 0) return { passed: false, report: `no source file under ${folder}` };

  const { exitCode, stdout, stderr } = await runTool(root, 'typescript-native/bin/tsc', ['-p', folder, '--listFiles']);
  const lines = `${stdout}${stderr}`.split(/\r?\n/);
  const complaints = lines.filter((line) => line !== '' && !isAbsolute(line));
  if (exitCode !== 0) return { passed: false, report: complaints.join('\n') };

  const realRoot = realpathSync(root);
  const seen = new Set(lines.map((line) => relative(realRoot, line).replaceAll('\\', '/')));
  const unseen = expected.filter((path) => !seen.has(path));
  if (unseen.length === 0) return { passed: true };
  return { passed: false, report: unseen.map((path) => `not seen by the compiler: ${path}`).join('\n') };
}

export const typesChecks: readonly Check[] = CODE_FOLDERS.map((folder) => ({
  name: `types in ${folder}`,
  run: (root) => checkFolder(root, folder),
}));

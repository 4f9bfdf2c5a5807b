import { cpSync, globSync, mkdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { runTool } from '../tools/run-tool.ts';

/** Folders whose code the installed package runs. */
const SERVICE_FOLDERS = ['server', 'shared', 'firmware-protocol'];

/**
 * Compiles the service into dist/service, which has the layout of the repository: Node runs our TypeScript directly,
 * but not in a package under node_modules. The page must be built already.
 * @param root the repository
 * @throws when the compiler cannot parse the code, with its output; types are checked by `npm run check`
 */
export async function buildPackage(root: string): Promise<void> {
  const target = join(root, 'dist', 'service');
  rmSync(target, { recursive: true, force: true });
  const { exitCode, stdout } = await runTool(root, 'typescript/bin/tsc', ['-p', 'scripts/build/tsconfig.package.json']);
  if (exitCode !== 0) throw new Error(`the package could not be compiled:\n${stdout}`);

  const others = globSync(`{${SERVICE_FOLDERS.join(',')}}/**/*.{json,sql,md,hex,h}`, {
    cwd: root,
    exclude: ['**/tsconfig.json'],
  });
  for (const path of others) {
    mkdirSync(dirname(join(target, path)), { recursive: true });
    cpSync(join(root, path), join(target, path));
  }
  cpSync(join(root, 'dist', 'web'), join(target, 'dist', 'web'), { recursive: true });
}

import { globSync } from 'node:fs';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';

export type LoadedModule<Run> = { readonly name: string; readonly run: Run };

/**
 * The modules of a folder, each with its work in its default export. Files in subfolders are helpers and are not
 * loaded.
 * @param only parts of file names; empty for all modules
 * @throws when nothing matches, or a module has no function as its default export
 */
export async function loadModules<Run>(folder: string, only: readonly string[]): Promise<LoadedModule<Run>[]> {
  const names = globSync('*.ts', { cwd: folder }).map((file) => basename(file, '.ts'));
  const chosen = names.filter((name) => only.length === 0 || only.some((part) => name.includes(part))).sort();
  if (chosen.length === 0) {
    throw new Error(
      `${folder} has no module named like ${only.join(', ') || '*.ts'}; there is: ${names.sort().join(', ') || 'none'}`,
    );
  }
  const loaded: LoadedModule<Run>[] = [];
  for (const name of chosen) {
    const module = await import(pathToFileURL(join(folder, `${name}.ts`)).href);
    if (typeof module.default !== 'function') throw new Error(`${name}.ts has no function as its default export`);
    loaded.push({ name, run: module.default });
  }
  return loaded;
}

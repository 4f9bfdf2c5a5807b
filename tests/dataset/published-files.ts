import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Returns every file below a folder by its path, with the hash of its content, for comparison with a later run. */
export function contentOf(folder: string): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [
        path.slice(folder.length + 1),
        createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16),
      ]),
  );
}

/** Returns the paths that differ in content or that only one of the two has, without the folder of the bench. */
export function differing(before: Record<string, string>, after: Record<string, string>): string[] {
  return [...new Set([...Object.keys(before), ...Object.keys(after)])]
    .filter((path) => before[path] !== after[path])
    .map((path) => path.replace(/bench=[^/]*\/year=/, ''))
    .sort();
}

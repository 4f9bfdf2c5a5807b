/** What the reading thread can be asked. */
import { readFileSync } from 'node:fs';
import type { ColumnsAsBurn } from './columns/columns-file.ts';
import { burnOf, type Correction, openFile } from './open-file.ts';

export interface ReadingJob {
  path: string;
  /** Name that the person knows the file by. */
  file: string;
  as?: 'columns' | 'notes' | undefined;
  correction?: Correction | undefined;
  /** Given when the burn is wanted and not only a look at the file. */
  burn?: ColumnsAsBurn | undefined;
}

export function doReading({ path, file, as, correction, burn }: ReadingJob) {
  const bytes = readFileSync(path);
  if (!burn) return openFile(bytes, file, as, correction);
  return { kind: 'burns' as const, records: [burnOf(bytes, file, correction ?? {}, burn)] };
}

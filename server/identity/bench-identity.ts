/**
 * The identity of this bench: an identifier made once, and a name. Both are stored next to the database, so that a
 * database rebuilt from published records is the same bench; backups contain them.
 */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type Bench, benchSchema } from '../../shared/contract/bench.ts';
import { AppError } from '../base/app-error.ts';
import { newId } from '../base/identifiers.ts';
import { reasonOf } from '../base/reason-of.ts';

export const BENCH = 'bench.json';

/** The content of the file: the identity, and the folder to which the bench publishes, which is private. */
const fileSchema = benchSchema.extend({ publishFolder: z.string().optional() });
type StoredBench = z.infer<typeof fileSchema>;

/**
 * The identity of the bench whose data are in `folder`, created when there is none.
 * @throws AppError bench/unreadable: a new identity in its place would publish every burn a second time
 */
export function benchIdentity(folder: string, nowMs: number): Bench {
  const { id, name } = readBench(folder, nowMs);
  return { id, name };
}

/** Changes the name of the bench; the identifier stays. @throws as `benchIdentity` */
export function nameBench(folder: string, nowMs: number, name: string): Bench {
  save(folder, { ...readBench(folder, nowMs), name });
  return benchIdentity(folder, nowMs);
}

/** The folder of the last publication; a folder in the data folder before the first. @throws as `benchIdentity` */
export function publishFolder(folder: string, nowMs: number): string {
  return readBench(folder, nowMs).publishFolder ?? join(folder, 'dataset');
}

/** @throws as `benchIdentity` */
export function rememberPublishFolder(folder: string, nowMs: number, chosen: string): void {
  const bench = readBench(folder, nowMs);
  if (bench.publishFolder !== chosen) save(folder, { ...bench, publishFolder: chosen });
}

function readBench(folder: string, nowMs: number): StoredBench {
  const file = join(folder, BENCH);
  const text = textOf(file);
  if (text === undefined) return newBench(folder, nowMs);
  try {
    return fileSchema.parse(JSON.parse(text));
  } catch (error) {
    throw new AppError('bench/unreadable', { file, raw: reasonOf(error) }, { cause: error });
  }
}

/** Not named after the machine: that name may be a person's, and the name of a bench is published. */
function newBench(folder: string, nowMs: number): StoredBench {
  const id = newId(nowMs);
  const bench = { id, name: `Bench ${id.slice(-6)}` };
  save(folder, bench);
  return bench;
}

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw new AppError('bench/unreadable', { file, raw: reasonOf(error) }, { cause: error });
  }
}

function save(folder: string, bench: StoredBench): void {
  const file = join(folder, BENCH);
  writeFileSync(`${file}.partial`, `${JSON.stringify(bench, null, 2)}\n`, { flush: true });
  renameSync(`${file}.partial`, file);
}

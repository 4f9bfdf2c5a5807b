/**
 * Who this bench is among others: an identifier made once, and a name. Both lie beside the database, so that a database made anew
 * from published records is the same bench; backups carry them.
 */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Bench, benchSchema } from '../../shared/contract/bench.ts';
import { AppError } from '../base/app-error.ts';
import { newId } from '../base/identifiers.ts';
import { reasonOf } from '../base/reason-of.ts';

export const BENCH = 'bench.json';

/**
 * The identity of the bench whose data are in `folder`, made when there is none.
 * @throws AppError bench/unreadable: another identity in its place would publish every burn a second time
 */
export function benchIdentity(folder: string, nowMs: number): Bench {
  const file = join(folder, BENCH);
  const text = textOf(file);
  if (text === undefined) return newBench(folder, nowMs);
  try {
    return benchSchema.parse(JSON.parse(text));
  } catch (error) {
    throw new AppError('bench/unreadable', { file, raw: reasonOf(error) }, { cause: error });
  }
}

/** Gives the bench a name; who it is stays. @throws as `benchIdentity` */
export function nameBench(folder: string, nowMs: number, name: string): Bench {
  return save(folder, { ...benchIdentity(folder, nowMs), name });
}

/** Not named after the machine: its name may be that of a person, and the name of a bench is published. */
function newBench(folder: string, nowMs: number): Bench {
  const id = newId(nowMs);
  return save(folder, { id, name: `Bench ${id.slice(-6)}` });
}

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw new AppError('bench/unreadable', { file, raw: reasonOf(error) }, { cause: error });
  }
}

function save(folder: string, bench: Bench): Bench {
  const file = join(folder, BENCH);
  writeFileSync(`${file}.partial`, `${JSON.stringify(bench, null, 2)}\n`, { flush: true });
  renameSync(`${file}.partial`, file);
  return bench;
}

/** Plans which files must be written or removed so that the folder matches the bench. */
import { basename } from 'node:path';
import type { DatasetTableName } from '../../shared/dataset/dataset.ts';
import { type FileState, readState } from './file-state.ts';
import { PARTIAL } from './parquet-file.ts';
import { benchesIn, fileOf, filesOfBench, filesOfTable, PARQUET } from './places.ts';

/** A burn as it is to be published. */
export interface WantedBurn {
  id: string;
  /** "2026-05" */
  month: string;
  /** Changes with any data from which its rows in the small tables are made. */
  source: string;
  /** The same of its readings; undefined where it has none. */
  readingsSource: string | undefined;
}

export type SmallTableName = Exclude<DatasetTableName, 'readings'>;

export type Step =
  | { kind: 'readings'; path: string; burn: WantedBurn }
  | { kind: 'rows'; path: string; table: SmallTableName; burns: WantedBurn[] }
  | { kind: 'remove'; path: string };

export interface Plan {
  steps: Step[];
  /** Identifiers of burns that another bench has published in this folder: their rows are there already. */
  elsewhere: string[];
}

/** Burns are last: once the row of a burn exists in burns, everything else of it exists too. */
const smallTables = ['weighings', 'marks', 'results', 'burns'] as const satisfies readonly SmallTableName[];

/**
 * Reads the existing files, and only those: no other state is needed between two runs.
 * @throws AppError dataset/newer; errors of the file system
 */
export function planPublication(folder: string, bench: string, burns: readonly WantedBurn[]): Plan {
  const others = publishedByOthers(folder, bench, new Set(burns.map(({ month }) => month)));
  const isElsewhere = (burn: WantedBurn) => {
    const benches = others.get(burn.id);
    if (!benches) return false;
    // Two benches that published it at once would both continue, or both withdraw: the lower identifier keeps it.
    const isHere = readState(fileOf(folder, bench, 'burns', burn.month))?.burns[burn.id] !== undefined;
    return !(isHere && benches.every((other) => bench < other));
  };
  const own = burns.filter((burn) => !isElsewhere(burn));
  const months = Map.groupBy(own, ({ month }) => month);
  const files = [...months.keys()].sort().flatMap((month) => filesOfMonth(folder, bench, month, months.get(month)!));
  const wanted = new Set(files.map(({ path }) => path));
  const steps = files.filter((file) => !isCurrent(file));
  return {
    steps: [...leftOver(folder, bench), ...steps, ...obsolete(folder, bench, wanted)],
    elsewhere: burns.filter((burn) => !own.includes(burn)).map(({ id }) => id),
  };
}

type File = Exclude<Step, { kind: 'remove' }>;

function filesOfMonth(folder: string, bench: string, month: string, burns: WantedBurn[]): File[] {
  return [
    ...burns
      .filter(({ readingsSource }) => readingsSource !== undefined)
      .map((burn): File => ({ kind: 'readings', path: fileOf(folder, bench, 'readings', month, burn.id), burn })),
    ...smallTables.map((table): File => ({ kind: 'rows', path: fileOf(folder, bench, table, month), table, burns })),
  ];
}

/** Whether a file is up to date: made of the same state of the same burns. */
function isCurrent(file: File): boolean {
  const found = readState(file.path);
  if (!found) return false;
  const wanted: FileState['burns'] =
    file.kind === 'readings'
      ? { [file.burn.id]: file.burn.readingsSource! }
      : Object.fromEntries(file.burns.map(({ id, source }) => [id, source]));
  const ids = Object.keys(wanted);
  return ids.length === Object.keys(found.burns).length && ids.every((id) => found.burns[id] === wanted[id]);
}

/** Files of burns that are no longer published: those that list the burns are removed first. */
function obsolete(folder: string, bench: string, wanted: ReadonlySet<string>): Step[] {
  const gone = filesOfBench(folder, bench).filter((path) => path.endsWith(PARQUET) && !wanted.has(path));
  // Throws for a file of a newer version, which may contain more than this version can judge.
  for (const path of gone) readState(path);
  return gone.map((path) => ({ kind: 'remove', path }));
}

/** Incomplete files of killed and cancelled runs of this bench. */
export function leftOver(folder: string, bench: string): Step[] {
  return filesOfBench(folder, bench)
    .filter((path) => PARTIAL.test(basename(path)))
    .map((path) => ({ kind: 'remove', path }));
}

/** The benches that have published each burn here; a burn has the same month on every bench. */
function publishedByOthers(folder: string, bench: string, months: ReadonlySet<string>): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const other of benchesIn(folder).filter((id) => id !== bench)) {
    const files = filesOfTable(folder, other, 'burns').filter((path) => months.has(basename(path, PARQUET)));
    for (const burn of files.flatMap((path) => Object.keys(readState(path)?.burns ?? {}))) {
      found.set(burn, [...(found.get(burn) ?? []), other]);
    }
  }
  return found;
}

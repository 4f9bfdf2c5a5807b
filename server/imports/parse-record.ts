import { type BurnRecord, burnRecordSchema } from '../../shared/contract/burn-record.ts';

type Fields = Readonly<Record<string, unknown>>;

/** Lists of numbers that have an entry for every scan, and what the schema asks of them. */
const listsOfBoard = { elapsedUs: areIntegers, sequence: areCounts, boot: areCounts } as const;

/**
 * A record by its schema, which looks at a million readings one by one for half of the time that an import takes. Lists in which it
 * would find nothing are looked at here and left out of what it gets; wherever it finds something, it gets all of the record.
 */
export function parseRecord(value: unknown): ReturnType<typeof burnRecordSchema.safeParse> {
  const whole = () => burnRecordSchema.safeParse(value, { reportInput: true });
  const boards = isObject(value) ? value.readings : undefined;
  if (!Array.isArray(boards) || !boards.every(isBoard)) return whole();
  const read = burnRecordSchema.safeParse({ ...(value as Fields), readings: boards.map(withoutSoundLists) });
  if (!read.success) return whole();
  return {
    ...read,
    data: { ...read.data, readings: read.data.readings.map((board, at) => filled(board, boards[at]!)) },
  };
}

type Board = Fields & { readonly columns: readonly Fields[] };

function isBoard(value: unknown): value is Board {
  return isObject(value) && Array.isArray(value.columns) && value.columns.every(isObject);
}

function withoutSoundLists(board: Board): Fields {
  const empty = Object.entries(listsOfBoard).filter(([name, isSound]) => isSoundList(board[name], isSound));
  return {
    ...board,
    ...Object.fromEntries(empty.map(([name]) => [name, []])),
    columns: board.columns.map((column) =>
      isSoundList(column.counts, areReadings) ? { ...column, counts: [] } : column,
    ),
  };
}

/** What the schema found to be right, with the lists of the file. */
function filled(board: BurnRecord['readings'][number], given: Board): BurnRecord['readings'][number] {
  const lists = Object.fromEntries(
    Object.keys(listsOfBoard).flatMap((name) => (name in given ? [[name, given[name]]] : [])),
  );
  const columns = board.columns.map((column, at) => ({ ...column, counts: given.columns[at]!.counts as number[] }));
  return { ...board, ...lists, columns };
}

type IsSound = (list: readonly unknown[]) => boolean;

/** Loops of their own: one that asks a function of every entry takes five times as long. */
function areIntegers(list: readonly unknown[]): boolean {
  for (let index = 0; index < list.length; index++) if (!Number.isSafeInteger(list[index])) return false;
  return true;
}

function areCounts(list: readonly unknown[]): boolean {
  for (let index = 0; index < list.length; index++)
    if (!(Number.isSafeInteger(list[index]) && (list[index] as number) >= 0)) return false;
  return true;
}

function areReadings(list: readonly unknown[]): boolean {
  for (let index = 0; index < list.length; index++)
    if (!(Number.isSafeInteger(list[index]) || list[index] === null)) return false;
  return true;
}

function isSoundList(list: unknown, isSound: IsSound): boolean {
  return Array.isArray(list) && isSound(list);
}

function isObject(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

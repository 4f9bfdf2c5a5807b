/** The rows of a table with damaged pages: read from both ends towards the damage, within every burn by itself. */
import type { Database } from 'better-sqlite3';

type Value = string | number | null | Buffer;
export type Row = Record<string, Value>;

const ROWS_AT_ONCE = 256;

/** @param onDamage told where rows may be missing between two that can be read */
export function* readableRows(db: Database, table: string, onDamage: (where: string) => void): Generator<Row> {
  const keys = keysOf(db, table);
  const perBurn = keys.length > 1 && keys[0] === 'burn_key';
  if (!perBurn) return yield* between(db, table, keys, '', [], onDamage);
  for (const burn of burnKeys(db)) yield* between(db, table, keys.slice(1), 'burn_key = ? AND ', [burn], onDamage);
}

function* between(
  db: Database,
  table: string,
  keys: readonly string[],
  where: string,
  bound: Value[],
  onDamage: (where: string) => void,
): Generator<Row> {
  let last: Row | undefined;
  const forward = walk(db, table, keys, { where, bound, comparison: '>', direction: 'ASC' });
  for (let step = forward.next(); ; step = forward.next()) {
    if (step.done) {
      if (step.value === undefined) return;
      onDamage([...bound, step.value].join(' '));
      break;
    }
    last = step.value;
    yield last;
  }
  const backward = walk(db, table, keys, { where, bound, comparison: '<', direction: 'DESC' });
  for (let step = backward.next(); !step.done; step = backward.next()) {
    if (last && keys.every((key) => step.value && (step.value as Row)[key] === last?.[key])) return;
    yield step.value;
  }
}

/** @returns why it ended before the end; undefined at the end */
function* walk(
  db: Database,
  table: string,
  keys: readonly string[],
  by: { where: string; bound: Value[]; comparison: '<' | '>'; direction: 'ASC' | 'DESC' },
): Generator<Row, string | undefined> {
  const order = keys.map((key) => `${key} ${by.direction}`).join(', ');
  const after = `(${keys.join(', ')}) ${by.comparison} (${keys.map(() => '?').join(', ')})`;
  let last: Row | undefined;
  for (let limit = ROWS_AT_ONCE; ; ) {
    try {
      const rows = db
        .prepare<Value[], Row>(
          `SELECT * FROM ${table} WHERE ${by.where}${last ? after : 'true'} ORDER BY ${order} LIMIT ${limit}`,
        )
        .all(...by.bound, ...(last ? keys.map((key) => last![key]!) : []));
      yield* rows;
      if (rows.length < limit) return undefined;
      last = rows.at(-1);
    } catch (error) {
      if (limit === 1) return (error as Error).message;
      limit = Math.floor(limit / 2);
    }
  }
}

function keysOf(db: Database, table: string): string[] {
  const columns = db.pragma(`table_info(${table})`) as { name: string; pk: number }[];
  return columns
    .filter(({ pk }) => pk > 0)
    .sort((a, b) => a.pk - b.pk)
    .map(({ name }) => name);
}

/** By the table of burns, or by its index where the table itself is damaged. */
function burnKeys(db: Database): number[] {
  for (const order of ['key', 'id']) {
    try {
      return db.prepare<[], number>(`SELECT key FROM burn ORDER BY ${order}`).pluck().all();
    } catch {
      // The next way.
    }
  }
  return [];
}

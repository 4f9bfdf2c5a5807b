import type { Database } from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { rowChecksum } from './row-checksums.ts';

/** Short integers for the long identifiers that stand in every row of readings. */
export type ShortKeys = ReturnType<typeof createShortKeys>;

export function createShortKeys(db: Database, table: 'burn' | 'board') {
  const select = db.prepare<[string], number>(`SELECT key FROM ${table} WHERE id = ?`).pluck();
  const insert = db.prepare<[number, string, number]>(`INSERT INTO ${table} (key, id, checksum) VALUES (?, ?, ?)`);
  const next = db.prepare<[], number>(`SELECT coalesce(max(key), 0) + 1 FROM ${table}`).pluck();
  const add = (id: string): number => {
    const key = next.get()!;
    insert.run(key, id, rowChecksum(key, id));
    return key;
  };
  return {
    /** 0, which no row has, when the identifier is not known. */
    find: (id: string): number => select.get(id) ?? 0,
    ensure: (id: string): number => select.get(id) ?? add(id),
  };
}

/** The key of a burn that must be there. @throws AppError burn/not-found */
export function keyOfBurn(burns: ShortKeys, id: string): number {
  const key = burns.find(id);
  if (key === 0) throw new AppError('burn/not-found', { id });
  return key;
}

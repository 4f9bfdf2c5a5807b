import type { Database } from 'better-sqlite3';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Derived } from './store.ts';

export function createDerived(db: Database, burns: ShortKeys): Derived {
  const select = db
    .prepare<[number, string, string], string>(
      'SELECT value FROM derived WHERE burn_key = ? AND name = ? AND stamp = ?',
    )
    .pluck();
  const names = db.prepare<[number], string>('SELECT name FROM derived WHERE burn_key = ? ORDER BY name').pluck();
  const upsert = db.prepare(
    `INSERT INTO derived (burn_key, name, stamp, value) VALUES (?, ?, ?, ?)
     ON CONFLICT (burn_key, name) DO UPDATE SET stamp = excluded.stamp, value = excluded.value`,
  );
  return {
    get(burnId, name, stamp) {
      const value = select.get(burns.find(burnId), name, stamp);
      return value === undefined ? undefined : JSON.parse(value);
    },
    put: (burnId, name, stamp, value) => void upsert.run(keyOfBurn(burns, burnId), name, stamp, JSON.stringify(value)),
    names: (burnId) => names.all(burns.find(burnId)),
  };
}

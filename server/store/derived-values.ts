import type { Database } from 'better-sqlite3';
import { rowChecksum } from './row-checksums.ts';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Derived } from './store.ts';

export function createDerived(db: Database, burns: ShortKeys): Derived {
  const select = db.prepare<[number, string, string], { value: string; checksum: number | null }>(
    'SELECT value, checksum FROM derived WHERE burn_key = ? AND name = ? AND stamp = ?',
  );
  const newest = db
    .prepare<[number, string], string>('SELECT stamp FROM derived WHERE burn_key = ? AND name = ?')
    .pluck();
  const names = db.prepare<[number], string>('SELECT name FROM derived WHERE burn_key = ? ORDER BY name').pluck();
  const upsert = db.prepare(
    `INSERT INTO derived (burn_key, name, stamp, value, checksum) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (burn_key, name) DO UPDATE
       SET stamp = excluded.stamp, value = excluded.value, checksum = excluded.checksum`,
  );
  return {
    get(burnId, name, stamp) {
      const burn = burns.find(burnId);
      const row = select.get(burn, name, stamp);
      // One that changed on the disk is worked out anew.
      if (!row || row.checksum !== rowChecksum(burn, name, stamp, row.value)) return undefined;
      return JSON.parse(row.value);
    },
    put(burnId, name, stamp, value) {
      const burn = keyOfBurn(burns, burnId);
      const text = JSON.stringify(value);
      upsert.run(burn, name, stamp, text, rowChecksum(burn, name, stamp, text));
    },
    stamp: (burnId, name) => newest.get(burns.find(burnId), name),
    names: (burnId) => names.all(burns.find(burnId)),
  };
}

/** Detects, on a connection that only reads, whether something was written about a burn. */
import type { Database } from 'better-sqlite3';
import type { ShortKeys } from './short-keys.ts';

/**
 * A string that differs whenever documents, gaps or scans of a burn, or the inventory, were written. Versions of documents are only
 * added; a resolved gap has another key or state; the time of the newest document differs where a burn was removed and imported again
 * under the same keys.
 */
export function createRowVersions(db: Database, burns: ShortKeys): (burnId: string) => string {
  const ofBurn = db
    .prepare<{ burn: number }, string>(
      `SELECT concat_ws(' ',
         (SELECT concat_ws(' ', max(key), count(*), max(edited_at_ms)) FROM document WHERE burn_key = @burn),
         (SELECT group_concat(concat_ws(' ', key, board_id, state)) FROM gap WHERE burn_key = @burn),
         (SELECT count(*) FROM scan WHERE burn_key = @burn),
         (SELECT concat_ws(' ', max(key), sum(scans)) FROM block WHERE burn_key = @burn),
         (SELECT concat_ws(' ', max(key), count(*)) FROM document
           WHERE kind IN ('stove', 'revision', 'vessel', 'fuelLot', 'place', 'scale')))`,
    )
    .pluck();
  return (burnId) => ofBurn.get({ burn: burns.find(burnId) })!;
}

/** Detects from the rows themselves whether something was written, whichever connection or process wrote it, and when. */
import type { Database } from 'better-sqlite3';
import { dataVersionOf } from './documents-in-memory.ts';
import type { ShortKeys } from './short-keys.ts';

export function createRowVersions(db: Database, burns: ShortKeys) {
  const ofBurn = db
    .prepare<{ burn: number }, string>(
      `SELECT concat_ws(' ',
         (SELECT concat_ws(' ', max(key), count(*), max(edited_at_ms)) FROM document WHERE burn_key = @burn),
         (SELECT group_concat(concat_ws(' ', key, board_id, state)) FROM gap WHERE burn_key = @burn),
         (SELECT count(*) FROM scan WHERE burn_key = @burn),
         (SELECT concat_ws(' ', max(key), sum(scans)) FROM block WHERE burn_key = @burn))`,
    )
    .pluck();
  const ofInventory = db
    .prepare<[], string>(
      `SELECT concat_ws(' ', max(key), count(*)) FROM document
        WHERE kind IN ('stove', 'revision', 'vessel', 'fuelLot', 'place', 'scale')`,
    )
    .pluck();
  const dataVersion = dataVersionOf(db);
  let known: { at: string; version: string } | undefined;

  return {
    /**
     * A string that differs whenever documents, gaps or scans of a burn were written. Versions of documents are only added; a
     * resolved gap has another key or state; the time of the newest document differs where a burn was removed and imported again
     * under the same keys.
     */
    ofBurn: (burnId: string): string => ofBurn.get({ burn: burns.find(burnId) })!,
    /** The same for the inventory. For a connection that only reads: what another one wrote is noticed. */
    ofInventory(): string {
      const at = dataVersion();
      if (known?.at !== at) known = { at, version: ofInventory.get()! };
      return known.version;
    },
  };
}

/** Scans as plain rows, one durable row as it comes: what runs, what is under repair, and what is not packed yet. */
import type { Database } from 'better-sqlite3';
import type { Scan } from './scan-columns.ts';
import { checkScan, packReadings, ROW_AS_HEX, unpackRows } from './scan-rows.ts';
import { emptyScans, type Place, type StoredScans } from './stored-scans.ts';

/** Everything here takes short keys of burn and board (see `short-keys.ts`). */
export type PlainScans = ReturnType<typeof createPlainScans>;

const NONE = emptyScans(0, 0);
const AFTER_ALL = Number.POSITIVE_INFINITY;
const PLACE = 'elapsed_us, boot, sequence, clash';
const OF_BOARD = 'burn_key = @burn AND board_key = @board';

export function createPlainScans(db: Database) {
  const insert = db.prepare(
    `INSERT INTO scan (burn_key, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings)
     VALUES (@burn, @board, @elapsedUs, @boot, @sequence, @clash, @uptimeMs, @arrivedUs, @readings)
     ON CONFLICT DO NOTHING`,
  );
  const hex = (which: string) => db.prepare<[object], string | null>(which).pluck();
  const rows = (where: string, order: string) =>
    hex(
      `SELECT group_concat(${ROW_AS_HEX}, '') FROM (SELECT * FROM scan WHERE ${OF_BOARD} AND ${where} ORDER BY ${order})`,
    );
  const one = (where: string, order: string) =>
    hex(`SELECT ${ROW_AS_HEX} FROM scan WHERE ${OF_BOARD} AND ${where} ORDER BY ${order} LIMIT 1`);
  const after = rows(
    `elapsed_us <= @untilUs AND (${PLACE}) > (@elapsed, @boot, @sequence, @clash)`,
    `${PLACE} LIMIT @limit`,
  );
  const newest = one('true', 'elapsed_us DESC, boot DESC, sequence DESC, clash DESC');
  const numbered = rows('boot = @boot AND sequence = @sequence', 'clash');
  const lower = one('boot = @boot AND sequence < @sequence', 'sequence DESC, clash');
  const higher = one('boot = @boot AND sequence > @sequence', 'sequence, clash');
  const counted = db
    .prepare<[object], number>(
      `SELECT count(*) FROM (SELECT 1 FROM scan WHERE ${OF_BOARD} AND elapsed_us < @beforeUs LIMIT @most)`,
    )
    .pluck();
  const remove = db.prepare(
    `DELETE FROM scan WHERE ${OF_BOARD} AND (${PLACE}) BETWEEN (@elapsed, @boot, @sequence, @clash)
     AND (@lastElapsed, @lastBoot, @lastSequence, @lastClash)`,
  );
  const copy = db.prepare(
    `INSERT INTO scan (burn_key, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings)
     SELECT @burn, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings FROM scan
     WHERE burn_key = @from AND board_key = @board`,
  );
  const removeBoot = db.prepare(`DELETE FROM scan WHERE ${OF_BOARD} AND boot = @boot`);
  const ofBoot = rows('boot = @boot', PLACE);
  const read = (text: string | null | undefined) => (text ? unpackRows(text) : NONE);

  return {
    /** @returns false when there is a row of this number and clash already. @throws AppError store/not-finite */
    insert(burn: number, board: number, scan: Scan, clash: number): boolean {
      checkScan(scan);
      const { elapsedUs, arrivedUs, uptimeMs, boot, sequence } = scan;
      const readings = packReadings(scan.readings);
      const row = { burn, board, elapsedUs, arrivedUs, uptimeMs, boot, sequence, readings, clash };
      return insert.run(row).changes === 1;
    },
    /** Up to `limit` scans behind a place, in order, none later than `untilUs`. */
    after: (burn: number, board: number, place: Place, limit: number, untilUs = AFTER_ALL): StoredScans =>
      read(after.get({ burn, board, ...place, limit, untilUs })),
    newest: (burn: number, board: number): StoredScans => read(newest.get({ burn, board })),
    /** Those of one number, the first that came first. */
    numbered: (burn: number, board: number, boot: number, sequence: number): StoredScans =>
      read(numbered.get({ burn, board, boot, sequence })),
    /** The scan of the boot with the next lower, or the next higher number. */
    neighbour: (side: 'lower' | 'higher', burn: number, board: number, boot: number, sequence: number): StoredScans =>
      read((side === 'lower' ? lower : higher).get({ burn, board, boot, sequence })),
    ofBoot: (burn: number, board: number, boot: number): StoredScans => read(ofBoot.get({ burn, board, boot })),
    /** How many there are before a moment; counts no further than `most`. */
    count: (burn: number, board: number, beforeUs = AFTER_ALL, most = -1): number =>
      counted.get({ burn, board, beforeUs, most }) ?? 0,
    /** Removes what lies from one place to another. @returns how many; the database refuses what is in no proven block */
    remove(burn: number, board: number, first: Place, last: Place): number {
      const { elapsed: lastElapsed, boot: lastBoot, sequence: lastSequence, clash: lastClash } = last;
      return remove.run({ burn, board, ...first, lastElapsed, lastBoot, lastSequence, lastClash }).changes;
    },
    /** Puts all of a board into another burn as well, which has nothing of it. */
    copy: (from: number, burn: number, board: number): void => void copy.run({ from, burn, board }),
    /** Removes what stands under another board as well; the database refuses anything else. */
    removeBoot: (burn: number, board: number, boot: number): void => void removeBoot.run({ burn, board, boot }),
  };
}

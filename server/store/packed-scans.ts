/** Scans as blocks of columns: where they are, and what is in them. */
import type { Database } from 'better-sqlite3';
import { type CoarseRows, decodeRows, type Ratio } from './coarse-rows.ts';
import type { BlockBytes, PackedBlock } from './packed-block.ts';
import { decodeBlock, openBlock } from './scan-block.ts';
import { emptyScans, type Place, type StoredScans, sliceScans, unfilledScans } from './stored-scans.ts';

export type PackedScans = ReturnType<typeof createPackedScans>;

/** A block without its readings. */
export interface BlockHead {
  key: number;
  scans: number;
  first: Place;
  last: Place;
}

interface HeadRow {
  key: number;
  scans: number;
  first_us: number;
  first_boot: number;
  first_sequence: number;
  first_clash: number;
  last_us: number;
  last_boot: number;
  last_sequence: number;
  last_clash: number;
}

/** A few blocks stay decoded: whoever reads page by page, or scan by scan, comes back for the next part. */
const MOST_DECODED = 2;
const NONE = emptyScans(0, 0);
const PLACES = 'first_us, first_boot, first_sequence, first_clash, last_us, last_boot, last_sequence, last_clash';
const NAMES = ['rowsOf32', 'rowsOf128', 'rowsOf512', 'columns'] as const;
const ROWS = 'rows_of_512, rows_of_128, rows_of_32';

export function createPackedScans(db: Database) {
  const insert = db.prepare(
    `INSERT INTO block (burn_key, board_key, scans, ${PLACES}, ${ROWS}, columns)
     VALUES (@burn, @board, @scans, @firstUs, @firstBoot, @firstSequence, @firstClash,
       @lastUs, @lastBoot, @lastSequence, @lastClash, @rowsOf512, @rowsOf128, @rowsOf32, @columns)`,
  );
  const insertNumbers = db.prepare<[number, number, number, number, number, number]>(
    `INSERT INTO block_numbers (burn_key, board_key, boot, first_sequence, last_sequence, block_key)
     VALUES (?, ?, ?, ?, ?, ?)`,
  );
  const prove = db.prepare<[number]>(
    `INSERT INTO proven_stretch (block_key, burn_key, board_key, first_us, last_us)
     SELECT key, burn_key, board_key, first_us, last_us FROM block WHERE key = ?`,
  );
  const proven = db.prepare('DELETE FROM proven_stretch');
  const remove = db.prepare<[number]>('DELETE FROM block WHERE key = ?');
  const heads = db.prepare<[number, number, number], HeadRow>(
    `SELECT key, scans, ${PLACES} FROM block WHERE burn_key = ? AND board_key = ? AND last_us >= ?
     ORDER BY ${PLACES}`,
  );
  const counted = db
    .prepare<[number, number], number>('SELECT sum(scans) FROM block WHERE burn_key = ? AND board_key = ?')
    .pluck();
  const numbered = db
    .prepare<[number, number, number, number, number], number>(
      `SELECT block_key FROM block_numbers WHERE burn_key = ? AND board_key = ? AND boot = ?
       AND last_sequence >= ? AND first_sequence <= ? ORDER BY block_key`,
    )
    .pluck();
  const below = db.prepare<[number, number, number, number], { key: number; reaches: number }>(
    `SELECT block_key AS key, last_sequence AS reaches FROM block_numbers
     WHERE burn_key = ? AND board_key = ? AND boot = ? AND first_sequence < ? ORDER BY last_sequence DESC`,
  );
  const above = db.prepare<[number, number, number, number], { key: number; reaches: number }>(
    `SELECT block_key AS key, first_sequence AS reaches FROM block_numbers
     WHERE burn_key = ? AND board_key = ? AND boot = ? AND last_sequence > ? ORDER BY first_sequence`,
  );
  const last = db.prepare<[number, number], HeadRow>(
    `SELECT key, scans, ${PLACES} FROM block WHERE burn_key = ? AND board_key = ?
     ORDER BY last_us DESC, last_boot DESC, last_sequence DESC, last_clash DESC LIMIT 1`,
  );
  const ofBoot = db
    .prepare<[number, number, number], number>(
      'SELECT DISTINCT block_key FROM block_numbers WHERE burn_key = ? AND board_key = ? AND boot = ?',
    )
    .pluck();
  const copy = db.prepare<[number, number]>(
    `INSERT INTO block (burn_key, board_key, scans, ${PLACES}, ${ROWS}, columns)
     SELECT ?, board_key, scans, ${PLACES}, ${ROWS}, columns FROM block WHERE key = ?`,
  );
  const copyNumbers = db.prepare<[number, number, number]>(
    `INSERT INTO block_numbers (burn_key, board_key, boot, last_sequence, first_sequence, block_key)
     SELECT ?, board_key, boot, last_sequence, first_sequence, ? FROM block_numbers WHERE block_key = ?`,
  );
  const bytesOf = (column: string) => db.prepare<[number], Buffer>(`SELECT ${column} FROM block WHERE key = ?`).pluck();
  const columnsOf = bytesOf('columns');
  const allBytes = db.prepare<[number], Record<keyof BlockBytes, Buffer>>(
    `SELECT rows_of_32 AS rowsOf32, rows_of_128 AS rowsOf128, rows_of_512 AS rowsOf512, columns
     FROM block WHERE key = ?`,
  );
  /** Of many blocks at once, in their order. */
  const bytesOfAll = (column: string) =>
    db
      .prepare<[string], Buffer>(
        `SELECT ${column} FROM json_each(?) AS wanted CROSS JOIN block ON block.key = wanted.value ORDER BY wanted.key`,
      )
      .pluck();
  const rowsOf = { 32: bytesOfAll('rows_of_32'), 128: bytesOfAll('rows_of_128'), 512: bytesOfAll('rows_of_512') };
  const columnsOfAll = bytesOfAll('columns');
  const decoded = new Map<number, StoredScans>();

  function scansOf(key: number): StoredScans {
    const known = decoded.get(key) ?? decodeBlock(columnsOf.get(key)!);
    decoded.delete(key);
    decoded.set(key, known);
    if (decoded.size > MOST_DECODED) decoded.delete(decoded.keys().next().value!);
    return known;
  }

  return {
    /** Blocks that end at a moment or later, in the order of their first places. */
    heads: (burn: number, board: number, fromUs = Number.MIN_SAFE_INTEGER): BlockHead[] =>
      heads.all(burn, board, fromUs).map(headOf),
    count: (burn: number, board: number): number => counted.get(burn, board) ?? 0,
    /** The scans of a block; nobody may change them. @throws AppError store/block-damaged */
    scansOf,
    /** The scans of blocks one after another, in columns of their own. */
    together(blocks: readonly BlockHead[]): StoredScans {
      const opened = columnsOfAll.all(keysOf(blocks)).map(openBlock);
      const count = opened.reduce((sum, block) => sum + block.count, 0);
      const scans = unfilledScans(count, Math.max(0, ...opened.map(({ channels }) => channels)));
      let at = 0;
      for (const block of opened) {
        block.readInto(scans, at);
        at += block.count;
      }
      return scans;
    },
    /** The coarse rows of blocks that follow each other, at a ratio. @throws AppError store/block-damaged */
    *rowsOf(blocks: readonly BlockHead[], ratio: Ratio): Generator<CoarseRows> {
      for (const bytes of rowsOf[ratio].all(keysOf(blocks))) yield decodeRows(bytes);
    },
    numbered(burn: number, board: number, boot: number, sequence: number): StoredScans[] {
      return numbered
        .all(burn, board, boot, sequence, sequence)
        .map(scansOf)
        .flatMap((scans) => withNumber(scans, boot, sequence));
    },
    /** As of plain scans: of the lowest clash. */
    neighbour(side: 'lower' | 'higher', burn: number, board: number, boot: number, sequence: number): StoredScans {
      const sign = side === 'lower' ? -1 : 1;
      let found = NONE;
      for (const { key, reaches } of (side === 'lower' ? below : above).all(burn, board, boot, sequence)) {
        // Numbers of a block lie anywhere between its first and its last; nearer ones than those found may be in the next.
        if (found.elapsedUs.length > 0 && sign * (reaches - found.sequence[0]!) > 0) break;
        found = nearer(scansOf(key), found, boot, sequence, sign);
      }
      return found;
    },
    /** Writes a block. @returns its key */
    insert(burn: number, board: number, { scans, first, last, numbers, bytes }: PackedBlock): number {
      const { lastInsertRowid } = insert.run({
        burn,
        board,
        scans,
        firstUs: first.elapsed,
        firstBoot: first.boot,
        firstSequence: first.sequence,
        firstClash: first.clash,
        lastUs: last.elapsed,
        lastBoot: last.boot,
        lastSequence: last.sequence,
        lastClash: last.clash,
        ...bytes,
      });
      const key = Number(lastInsertRowid);
      for (const [boot, from, to] of numbers) insertNumbers.run(burn, board, boot, from, to, key);
      return key;
    },
    /** What the database has of a block now. */
    readAnew: (key: number): StoredScans => decodeBlock(columnsOf.get(key)!),
    /** Whether the database has these bytes of a block now. */
    holds(key: number, bytes: BlockBytes): boolean {
      const there = allBytes.get(key);
      return there !== undefined && NAMES.every((name) => there[name].equals(bytes[name]));
    },
    /** Puts a block into another burn as well. */
    copy(key: number, burn: number): void {
      const made = Number(copy.run(burn, key).lastInsertRowid);
      copyNumbers.run(burn, made, key);
    },
    ofBoot: (burn: number, board: number, boot: number): number[] => ofBoot.all(burn, board, boot),
    /** The block that ends last. */
    last(burn: number, board: number): BlockHead | undefined {
      const row = last.get(burn, board);
      return row && headOf(row);
    },
    /** While `work` runs the database lets rows go that lie in this block. */
    whileProven<T>(key: number, work: () => T): T {
      prove.run(key);
      const result = work();
      proven.run();
      return result;
    },
    /** The database refuses it where neither a proven block nor as many rows stand in its place. @returns false when it was not there */
    remove(key: number): boolean {
      decoded.delete(key);
      return remove.run(key).changes === 1;
    },
  };
}

/** For SQL. */
function keysOf(blocks: readonly BlockHead[]): string {
  return JSON.stringify(blocks.map(({ key }) => key));
}

function headOf(row: HeadRow): BlockHead {
  return {
    key: row.key,
    scans: row.scans,
    first: { elapsed: row.first_us, boot: row.first_boot, sequence: row.first_sequence, clash: row.first_clash },
    last: { elapsed: row.last_us, boot: row.last_boot, sequence: row.last_sequence, clash: row.last_clash },
  };
}

function withNumber(scans: StoredScans, boot: number, sequence: number): StoredScans[] {
  const found: StoredScans[] = [];
  for (let scan = scans.sequence.indexOf(sequence); scan >= 0; scan = scans.sequence.indexOf(sequence, scan + 1))
    if (scans.boot[scan] === boot) found.push(sliceScans(scans, scan, scan + 1));
  return found;
}

/** The scan of `scans` next to a number on one side, or what was found before where that is as near. */
function nearer(scans: StoredScans, found: StoredScans, boot: number, sequence: number, sign: number): StoredScans {
  let best = -1;
  const isBetter = (scan: number, number: number, clash: number) =>
    sign * (number - scans.sequence[scan]!) > 0 || (number === scans.sequence[scan] && clash > scans.clash[scan]!);
  for (let scan = 0; scan < scans.sequence.length; scan++) {
    if (scans.boot[scan] !== boot || sign * (scans.sequence[scan]! - sequence) <= 0) continue;
    if (best < 0 || isBetter(scan, scans.sequence[best]!, scans.clash[best]!)) best = scan;
  }
  if (best < 0) return found;
  const isFirst = found.elapsedUs.length === 0 || isBetter(best, found.sequence[0]!, found.clash[0]!);
  return isFirst ? sliceScans(scans, best, best + 1) : found;
}

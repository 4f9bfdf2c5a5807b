import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import { joinColumns, type Scan, type ScanColumns, scanAt } from './scan-columns.ts';
import { checkScan, packReadings, ROW_AS_HEX, unpackRows } from './scan-rows.ts';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Scans } from './store.ts';

/** About 10 ms of reading and 25 ms of writing at eight channels: short enough not to hold up a serial port. */
const SCANS_PER_PAGE = 16_384;
const SCANS_PER_TRANSACTION = 5_000;

interface Place {
  elapsed: number;
  boot: number;
  sequence: number;
  clash: number;
}

export function createScans(db: Database, burns: ShortKeys, boards: ShortKeys): Scans {
  const insert = db.prepare(
    `INSERT INTO scan (burn_key, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings)
     VALUES (@burn, @board, @elapsedUs, @boot, @sequence, @clash, @uptimeMs, @arrivedUs, @readings)
     ON CONFLICT DO NOTHING`,
  );
  const sameNumber = db.prepare<[number, number, number, number], { uptime_ms: number; readings: Buffer }>(
    'SELECT uptime_ms, readings FROM scan WHERE burn_key = ? AND board_key = ? AND boot = ? AND sequence = ?',
  );
  const counted = db
    .prepare<[number, number], number>('SELECT count(*) FROM scan WHERE burn_key = ? AND board_key = ?')
    .pluck();
  const boardIds = db
    .prepare<[number], string>(
      'SELECT id FROM board WHERE EXISTS (SELECT 1 FROM scan WHERE burn_key = ? AND board_key = board.key) ORDER BY key',
    )
    .pluck();

  const copy = db.prepare<[number, number]>(
    `INSERT INTO scan (burn_key, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings)
     SELECT ?, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings FROM scan WHERE burn_key = ?
     ON CONFLICT DO NOTHING`,
  );

  const after = '(elapsed_us, boot, sequence, clash) > (@elapsed, @boot, @sequence, @clash)';
  const chosen = `FROM scan WHERE burn_key = @burn AND board_key = @board AND ${after}
    ORDER BY elapsed_us, boot, sequence, clash LIMIT @limit`;
  const pageAsHex = db
    .prepare<[object], string | null>(`SELECT group_concat(${ROW_AS_HEX}, '') FROM (SELECT * ${chosen})`)
    .pluck();
  const lastOfPage = db.prepare<[object], Place>(
    `SELECT elapsed_us AS elapsed, boot, sequence, clash FROM (SELECT * ${chosen})
     ORDER BY elapsed_us DESC, boot DESC, sequence DESC, clash DESC LIMIT 1`,
  );
  const numberedAsHex = db
    .prepare<[number, number, number, number], string>(
      `SELECT ${ROW_AS_HEX} FROM scan WHERE burn_key = ? AND board_key = ? AND boot = ? AND sequence = ?
       ORDER BY clash DESC LIMIT 1`,
    )
    .pluck();
  const neighbourAsHex = (side: '<' | '>', order: 'DESC' | 'ASC') =>
    db
      .prepare<[number, number, number, number], string>(
        `SELECT ${ROW_AS_HEX} FROM scan WHERE burn_key = ? AND board_key = ? AND boot = ? AND sequence ${side} ?
         ORDER BY sequence ${order}, clash LIMIT 1`,
      )
      .pluck();
  const lowerAsHex = neighbourAsHex('<', 'DESC');
  const higherAsHex = neighbourAsHex('>', 'ASC');
  const nextOf = db.prepare<[number, number], { boot: number; sequence: number; next: number }>(
    `SELECT boot, sequence, next FROM (
       SELECT boot, sequence, lead(sequence) OVER (PARTITION BY boot ORDER BY sequence) AS next
       FROM scan WHERE burn_key = ? AND board_key = ? AND clash = 0)
     WHERE next > sequence + 1`,
  );
  const copyBoot = db.prepare<[number, number, number, number]>(
    `INSERT INTO scan (burn_key, board_key, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings)
     SELECT burn_key, ?, elapsed_us, boot, sequence, clash, uptime_ms, arrived_us, readings FROM scan
     WHERE burn_key = ? AND board_key = ? AND boot = ? ON CONFLICT DO NOTHING`,
  );
  const removeBoot = db.prepare('DELETE FROM scan WHERE burn_key = ? AND board_key = ? AND boot = ?');
  const newestAsHex = db
    .prepare<[number, number], string>(
      `SELECT ${ROW_AS_HEX} FROM scan WHERE burn_key = ? AND board_key = ? ORDER BY elapsed_us DESC LIMIT 1`,
    )
    .pluck();

  /**
   * A number seen before is a scan sent again, unless it says something else: then the board has forgotten its boot
   * counter, and the scan is kept beside the first one rather than lost.
   */
  function save(burn: number, board: number, scan: Scan): boolean {
    checkScan(scan);
    const { elapsedUs, arrivedUs, uptimeMs, boot, sequence } = scan;
    const readings = packReadings(scan.readings);
    const row = { burn, board, elapsedUs, arrivedUs, uptimeMs, boot, sequence, readings };
    if (insert.run({ ...row, clash: 0 }).changes === 1) return true;
    const others = sameNumber.all(burn, board, boot, sequence);
    if (others.some((other) => other.uptime_ms === uptimeMs && readings.equals(other.readings))) return false;
    insert.run({ ...row, clash: others.length });
    return true;
  }

  const saveOne = db.transaction(save);
  const saveSome = db.transaction((burn: number, board: number, scans: Scan[]) => {
    let stored = 0;
    for (const scan of scans) if (save(burn, board, scan)) stored++;
    return stored;
  });

  function* pages(burnId: string, boardId: string, scansPerPage = SCANS_PER_PAGE): Generator<ScanColumns> {
    const where = { burn: burns.find(burnId), board: boards.find(boardId), limit: scansPerPage };
    let from: Place = { elapsed: Number.MIN_SAFE_INTEGER, boot: 0, sequence: 0, clash: 0 };
    for (;;) {
      const hex = pageAsHex.get({ ...where, ...from });
      const last = hex ? lastOfPage.get({ ...where, ...from }) : undefined;
      if (!hex || !last) return;
      yield unpackRows(hex);
      from = last;
    }
  }

  return {
    pages,
    append: (burnId, boardId, scan) =>
      saveOne.immediate(keyOfBurn(burns, burnId), boards.ensure(boardId), scan) ? 'kept' : 'known',

    async appendMany(burnId, boardId, scans) {
      const [burn, board] = [keyOfBurn(burns, burnId), boards.ensure(boardId)];
      let stored = 0;
      let waiting: Scan[] = [];
      for (const scan of scans) {
        waiting.push(scan);
        if (waiting.length < SCANS_PER_TRANSACTION) continue;
        stored += saveSome.immediate(burn, board, waiting);
        waiting = [];
        await nextTurn();
      }
      return stored + saveSome.immediate(burn, board, waiting);
    },

    copyFrom: (fromBurnId, burnId) => void copy.run(keyOfBurn(burns, burnId), burns.find(fromBurnId)),

    boards: (burnId) => boardIds.all(burns.find(burnId)),
    count: (burnId, boardId) => counted.get(burns.find(burnId), boards.find(boardId)) ?? 0,
    columns: (burnId, boardId) => joinColumns([...pages(burnId, boardId)]),

    latest: (burnId, boardId) => firstOf(newestAsHex.get(burns.find(burnId), boards.find(boardId))),
    find: (burnId, boardId, { boot, sequence }) =>
      firstOf(numberedAsHex.get(burns.find(burnId), boards.find(boardId), boot, sequence)),
    around(burnId, boardId, { boot, sequence }) {
      const place = [burns.find(burnId), boards.find(boardId), boot, sequence] as const;
      const [before, after] = [firstOf(lowerAsHex.get(...place)), firstOf(higherAsHex.get(...place))];
      return { ...(before && { before }), ...(after && { after }) };
    },
    holes(burnId, boardId) {
      const [burn, board] = [burns.find(burnId), boards.find(boardId)];
      return nextOf.all(burn, board).map(({ boot, sequence, next }) => ({
        before: firstOf(numberedAsHex.get(burn, board, boot, sequence))!,
        after: firstOf(numberedAsHex.get(burn, board, boot, next))!,
      }));
    },
    move(burnId, fromBoardId, toBoardId, boot) {
      const [burn, from] = [keyOfBurn(burns, burnId), boards.find(fromBoardId)];
      copyBoot.run(boards.ensure(toBoardId), burn, from, boot);
      removeBoot.run(burn, from, boot);
    },
  };
}

function firstOf(hex: string | undefined): Scan | undefined {
  return hex === undefined ? undefined : scanAt(unpackRows(hex), 0);
}

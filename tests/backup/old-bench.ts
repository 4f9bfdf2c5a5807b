/** Writes a bench of layout 2, with one row per scan, by SQL alone. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { migrations } from '../../server/store/migrations.ts';
import { boardId, burnId, plannedBurn, testId } from '../support/temp-store.ts';

export const otherBoardId = testId(3);
const NOTHING = 255;
const OPEN = 1;

interface Row {
  board: number;
  elapsedUs: number;
  boot: number;
  sequence: number;
  clash?: number;
  uptimeMs: number;
  counts: readonly number[];
  status: readonly number[];
}

/**
 * Writes a finished burn of two boards: one of 9000 scans with faults, a restart and a number used twice, the other
 * with half as many channels and numbers missing.
 */
export function writeOldBench(folder: string, seal?: string): void {
  const db = new Database(join(folder, 'stovebench.db'));
  for (const { sql } of migrations.filter(({ toVersion }) => toVersion <= 2)) db.exec(sql);
  db.pragma('user_version = 2');
  db.prepare('INSERT INTO burn (key, id) VALUES (1, ?)').run(burnId);
  db.prepare('INSERT INTO board (key, id) VALUES (1, ?), (2, ?)').run(boardId, otherBoardId);
  db.prepare(
    `INSERT INTO document (kind, id, version, burn_key, body, withdrawn, edited_at_ms) VALUES ('burn', ?, 1, 1, ?, 0, 0)`,
  ).run(burnId, JSON.stringify(finishedBurn));
  const insert = db.prepare('INSERT INTO scan VALUES (1, ?, ?, ?, ?, ?, ?, ?, ?)');
  db.transaction(() => {
    for (const row of rows()) {
      const { board, elapsedUs, boot, sequence, clash = 0, uptimeMs, counts, status } = row;
      const blob = Buffer.alloc(counts.length * 5);
      for (const [channel, count] of counts.entries()) blob.writeInt32LE(count, channel * 4);
      blob.set(status, counts.length * 4);
      insert.run(board, elapsedUs, boot, sequence, clash, uptimeMs, elapsedUs + 900 + ((sequence * 31) % 700), blob);
    }
  })();
  const counted = JSON.stringify([
    [boardId, 9002],
    [otherBoardId, 290],
  ]);
  if (seal) db.prepare("INSERT INTO derived VALUES (1, 'readingsSeal', ?, ?)").run(counted, JSON.stringify(seal));
  db.close();
}

function* rows(): Generator<Row> {
  for (let scan = 0; scan < 9000; scan++) {
    const boot = scan < 5000 ? 7 : 2 ** 32 + 1;
    const isOpen = scan % 997 < 12;
    yield {
      board: 1,
      elapsedUs: scan * 1_000_000 + ((scan * 13) % 40),
      boot,
      sequence: scan % 5000,
      uptimeMs: (scan % 5000) * 1000 + 400,
      counts: [1500 + ((scan * 7919) % 11), isOpen ? 0 : -40 + (scan % 5), 0, 2 ** 31 - 1 - scan],
      status: [0, isOpen ? OPEN : 0, NOTHING, 0],
    };
  }
  const again = { board: 1, boot: 7, sequence: 8, counts: [3, 4], status: [0, 0] };
  yield { ...again, elapsedUs: 4_000_000_000, clash: 1, uptimeMs: 77 };
  yield { ...again, elapsedUs: 4_000_000_000, clash: 2, uptimeMs: 78 };
  for (let scan = 0; scan < 300; scan++) {
    if (scan % 100 >= 90 && scan < 100) continue;
    const counts = [scan, -scan];
    yield {
      board: 2,
      elapsedUs: scan * 1_000_100,
      boot: 1,
      sequence: scan,
      uptimeMs: scan * 1000,
      counts,
      status: [0, 0],
    };
  }
}

const finishedBurn = { ...plannedBurn(), title: 'An old burn', status: 'complete' };

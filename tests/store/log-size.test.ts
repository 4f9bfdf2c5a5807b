import { statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { boardId, burnId, openTestStore, saveBurn, scanAt } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** A day of one scan every ten seconds: each is a transaction of its own, and only their number matters to the log. */
const SCANS = 8_640;
const MOST_BYTES = 8 * 1024 * 1024;

test('over a day of single scans, with reading and a backup in between, the write-ahead log stays small', async () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  saveBurn(store);
  const logBytes = () => statSync(join(folder, 'stovebench.db-wal')).size;
  let largest = 0;
  for (let sequence = 0; sequence < SCANS; sequence++) {
    store.scans.append(burnId, boardId, scanAt(sequence));
    if (sequence === SCANS / 2) await store.backup(join(folder, 'copy.db'));
    if (sequence % 500 !== 0) continue;
    store.scans.pages(burnId, boardId).next();
    largest = Math.max(largest, logBytes());
  }
  expect(largest).toBeGreaterThan(0);
  expect(largest).toBeLessThan(MOST_BYTES);
  store.checkpoint();
  expect(logBytes()).toBe(0);
  expect(store.scans.count(burnId, boardId)).toBe(SCANS);
});

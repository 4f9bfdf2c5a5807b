import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { packReadings } from '../../server/backup/pack-readings.ts';
import { checkSeal } from '../../server/backup/readings-seal.ts';
import type { Store } from '../../server/store/store.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { boardId, burnId, openTestStore } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { otherBoardId, writeOldBench } from './old-bench.ts';

/** Seal of the readings of the old bench, made by the code of the version that wrote rows only. */
const SEAL_OF_OLD = 'd75ab4d74e87ce1ef76625b57906344c6d3b5b82fd517076b4a608f9f6150950';

const readingsOf = ({ scans }: Store) =>
  [boardId, otherBoardId].map((id) => [scans.count(burnId, id), scans.columns(burnId, id), scans.holes(burnId, id)]);

test('an old bench is readable at once, is packed while the service runs, and its seal is still valid', async () => {
  const folder = temporaryFolder();
  writeOldBench(folder, SEAL_OF_OLD);
  const store = openTestStore(folder);
  const before = readingsOf(store);
  expect(await checkSeal(store, burnId)).toBe('same');

  const clock = createFakeClock();
  const troubles: unknown[] = [];
  const stop = packReadings({ store, clock, onTrouble: (error) => troubles.push(error) });
  while (store.scans.plainBurns().length > 0) {
    clock.advance(200);
    await nextTurn();
    expect(await checkSeal(store, burnId)).toBe('same');
  }
  await stop();
  expect(troubles).toEqual([]);
  expect(readingsOf(store)).toEqual(before);
  expect(await checkSeal(store, burnId)).toBe('same');

  const elsewhere = temporaryFolder();
  copyFileSync(join(folder, 'backups', 'layout-2-before-3.db'), join(elsewhere, 'stovebench.db'));
  expect(readingsOf(openTestStore(elsewhere))).toEqual(before);
});

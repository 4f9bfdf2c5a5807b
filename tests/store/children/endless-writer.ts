/** Keeps scans one after another, packs them now and then, and says each number once it is on the disk. For the test that kills it. */
import { writeSync } from 'node:fs';
import { openStore } from '../../../server/store/open-store.ts';

/** So few that the writer spends most of its time packing. */
const SCANS_PER_BLOCK = 3;

const [folder = '', burnId = '', boardId = ''] = process.argv.slice(2);
const store = openStore(folder, { nowMs: Date.now });
for (let sequence = 0; ; sequence++) {
  store.scans.append(burnId, boardId, {
    boot: 1,
    sequence,
    uptimeMs: sequence,
    elapsedUs: sequence,
    arrivedUs: sequence,
    readings: [sequence, sequence + 1, sequence + 2],
  });
  // Written through at once: a buffered word would be lost with the process.
  writeSync(1, `${sequence}\n`);
  if (sequence % SCANS_PER_BLOCK === SCANS_PER_BLOCK - 1) await store.scans.pack(burnId, { isOver: true });
}

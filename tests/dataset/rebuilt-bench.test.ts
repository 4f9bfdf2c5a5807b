import { expect, test } from 'vitest';
import { publishedRecords } from '../../server/dataset/read-back.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, burnRecordSchema } from '../../shared/contract/burn-record.ts';
import { recordOf } from '../exports/sample-burn.ts';
import { checksumOf } from '../imports/files.ts';
import { boardId, scanAt, tempStore, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { burnOf, publishingBench } from './published-bench.ts';

const MAY = Date.UTC(2026, 4, 2, 7);
/** Draws are streams keyed by seed and name: if the first thousand agree, all do. */
const quick = (record: BurnRecord) => analyse(record, { draws: 1000 });

test('a bench rebuilt from the published files has the same records and the same results, to the last bit', async () => {
  const handRead = { id: testId(40), name: 'dial', role: 'water', unit: 'Cel', scale: 0.1, handRead: true } as const;
  const typed = { id: testId(41), kind: 'reading', channelId: handRead.id, elapsedUs: 9e8, value: 61.5 } as const;
  const plain = burnOf(1, MAY);
  const withHand = burnOf(2, MAY, { channels: [...plain.channels, handRead], marks: [...burnOf(2, MAY).marks, typed] });
  const { store, publish } = await publishingBench([plain, withHand]);
  // Another board without any description, and a scan of faults and of no readings.
  for (let sequence = 0; sequence < 3; sequence++) store.scans.append(plain.id, boardId, scanAt(sequence));
  const [board] = store.scans.boards(withHand.id);
  store.scans.append(withHand.id, board!, scanAt(99_999, { elapsedUs: 7e9, readings: ['open', null, 'unreadable'] }));
  const folder = temporaryFolder();
  await publish(folder);

  const rebuilt = tempStore();
  for await (const record of publishedRecords(folder)) await saveRecord(rebuilt, burnRecordSchema.parse(record));
  expect(
    rebuilt.documents
      .list('burn')
      .map(({ id }) => id)
      .sort(),
  ).toEqual([plain.id, withHand.id].sort());
  for (const { id } of [plain, withHand]) {
    expect(recordOf(rebuilt, id)).toEqual(recordOf(store, id));
    expect(await checksumOf(rebuilt, id)).toBe(await checksumOf(store, id));
    expect(JSON.stringify(quick(recordOf(rebuilt, id)))).toBe(JSON.stringify(quick(recordOf(store, id))));
  }
});

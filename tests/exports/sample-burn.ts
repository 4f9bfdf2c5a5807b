import type { ExportedBurn } from '../../server/exports/burn-files.ts';
import { readBoards } from '../../server/records/board-readings.ts';
import { assembleRecord } from '../../server/records/burn-record.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import type { Store } from '../../server/store/store.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, burnRecordSchema } from '../../shared/contract/burn-record.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { tempStore, testId } from '../support/temp-store.ts';

/** Returns the published sample, with changes. */
export function sampleRecord(change: Partial<BurnRecord> = {}): BurnRecord {
  return { ...burnRecordSchema.parse(structuredClone(sample)), ...change };
}

/** Returns the record of a burn from the store. */
export function recordOf(store: Store, burnId: string): BurnRecord {
  return assembleRecord(recordWithoutReadings(store, burnId), readBoards(store, burnId));
}

/** Saves a burn in a store of its own, ready to be exported. */
export async function exportedBurn(record = sampleRecord()): Promise<ExportedBurn> {
  const store = tempStore();
  await saveRecord(store, record);
  return {
    store,
    record: recordWithoutReadings(store, record.id),
    analysis: async () => analyse(recordOf(store, record.id), { draws: 200 }),
    benchId: testId(99),
    version: '0.0.0',
  };
}

export function whole(chunks: Iterable<string | Uint8Array>): Buffer {
  return Buffer.concat([...chunks].map((chunk) => Buffer.from(chunk as string)));
}

import { newId } from '../../server/base/identifiers.ts';
import { burnFile } from '../../server/exports/burn-files.ts';
import { pagedBoards, recordChecksum, recordJson } from '../../server/exports/record-json.ts';
import { planned } from '../../server/imports/import-work.ts';
import { type MergeOptions, merge } from '../../server/imports/merge.ts';
import { openFile } from '../../server/imports/open-file.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import type { Store } from '../../server/store/store.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { recordOf, whole } from '../exports/sample-burn.ts';
import { testId } from '../support/temp-store.ts';

export const bytesOf = (text: string) => new Uint8Array(Buffer.from(text));

export async function packageOf(store: Store, burnId: string): Promise<Uint8Array> {
  const record = recordWithoutReadings(store, burnId);
  const analysis = async () => analyse(recordOf(store, burnId), { draws: 0 });
  const burn = { store, record, benchId: testId(99), analysis, version: '0.0.0' };
  return whole((await burnFile('package.zip', burn)).chunks);
}

export function recordFileOf(store: Store, burnId: string): Uint8Array {
  return whole(recordJson(recordWithoutReadings(store, burnId), pagedBoards(store, burnId)));
}

export const checksumOf = (store: Store, burnId: string) =>
  recordChecksum(recordJson(recordWithoutReadings(store, burnId), pagedBoards(store, burnId)));

export async function importFile(store: Store, bytes: Uint8Array, options: Partial<MergeOptions> = {}) {
  const opened = openFile(bytes, 'file');
  if (opened.kind !== 'burns') throw new Error('no burns');
  return merge(store, await planned(store, opened.records), { newId: () => newId(Date.UTC(2026, 4, 2)), ...options });
}

/** The first mark of a kind. */
export function markOf(record: BurnRecord, kind: string) {
  return record.marks.find((mark) => mark.kind === kind)!;
}

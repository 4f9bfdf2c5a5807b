import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import { DATASET_VERSION } from '../../shared/dataset/dataset.ts';
import { handReadings } from '../records/hand-readings.ts';
import { type RecordWithoutReadings, stampOf } from '../records/record-without-readings.ts';
import type { Store, StoredDocument } from '../store/store.ts';
import { monthOf } from './places.ts';
import type { WantedBurn } from './plan.ts';

/** Whether a burn is complete: it has ended, and no scans are being fetched. */
export function isFinished(store: Store, { id, body, withdrawn }: StoredDocument<'burn'>): boolean {
  return !withdrawn && body.status !== 'planned' && body.status !== 'running' && store.gaps.open(id).length === 0;
}

/** What the folder must contain for a burn in this state. */
export function wantedBurn(store: Store, record: RecordWithoutReadings, benchName: string): WantedBurn {
  const { id, origin, startedUtcMs, channels } = record;
  const typed = handReadings(record).map(({ columns }) => [...columns.elapsedUs, ...(columns.counts[0] ?? [])]);
  const scans = store.scans.boards(id).reduce((sum, boardId) => sum + store.scans.count(id, boardId), 0);
  return {
    id,
    month: monthOf(record),
    source: stampOf(store, id, { DATASET_VERSION, METHOD_VERSION, benchName, record }),
    readingsSource:
      scans === 0 && typed.length === 0
        ? undefined
        : stampOf(store, id, { DATASET_VERSION, origin, startedUtcMs, channels, typed }),
  };
}

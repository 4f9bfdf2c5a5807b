import { onTestFinished } from 'vitest';
import type { DocumentOf } from '../../server/store/document-kinds.ts';
import { openStore, type StoreOptions } from '../../server/store/open-store.ts';
import type { Scan, Store } from '../../server/store/store.ts';
import { temporaryFolder } from './temporary-folder.ts';

const NOW_MS = Date.UTC(2026, 4, 2, 7, 0, 0);

/** Opens a store that is closed at the end of the test at the latest. */
export function openTestStore(folder: string, options: Partial<StoreOptions> = {}): Store {
  const store = openStore(folder, { nowMs: () => NOW_MS, ...options });
  let open = true;
  const close = () => {
    if (open) store.close();
    open = false;
  };
  onTestFinished(close);
  return { ...store, close };
}

export function tempStore(): Store {
  return openTestStore(temporaryFolder());
}

/** Makes a UUID that can be recognised in the output of a failed test. */
export function testId(number: number): string {
  return `00000000-0000-7000-8000-${String(number).padStart(12, '0')}`;
}

export const burnId = testId(1);
export const boardId = testId(2);

/** The document of a planned burn. */
export function plannedBurn(id = burnId): DocumentOf<'burn'> {
  return {
    id,
    title: 'A burn',
    origin: 'measured',
    status: 'planned',
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    target: { kind: 'boil' },
    fuelLotIds: [],
    scaleIds: [],
    channels: [],
  };
}

/** Saves a planned burn to which scans and entries can belong. */
export function saveBurn(store: Store, id = burnId): void {
  store.documents.create('burn', { id, body: plannedBurn(id) });
}

/** One scan a second, channels counting up and down. */
export function scanAt(sequence: number, change: Partial<Scan> = {}): Scan {
  return {
    boot: 7,
    sequence,
    uptimeMs: sequence * 1000 + 400,
    elapsedUs: sequence * 1_000_000,
    arrivedUs: sequence * 1_000_000 + 2_500,
    readings: [sequence, -sequence, 1600],
    ...change,
  };
}

/** Packs all scans of a burn that are in plain rows. */
export async function packAll(store: Store, id: string, isOver = true): Promise<void> {
  while (await store.scans.pack(id, { isOver }));
}

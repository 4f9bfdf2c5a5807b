/** Makes a bench with finished burns that publishes. */
import { onTestFinished } from 'vitest';
import { derivedId } from '../../server/base/identifiers.ts';
import type { Publisher } from '../../server/dataset/publisher.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import type { Store } from '../../server/store/store.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { openTestStore } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { publisherHere, publishHere } from './publish-here.ts';

/** Returns the published sample as another burn, with its own time and identifiers. */
export function burnOf(number: number, startedUtcMs: number, change: Partial<BurnRecord> = {}): BurnRecord {
  const sample = sampleRecord();
  const own = <T extends { id: string }>(things: readonly T[]): T[] =>
    things.map((thing) => ({ ...thing, id: derivedId(`${thing.id} ${number}`, startedUtcMs) }));
  return {
    ...sample,
    id: derivedId(`burn ${number}`, startedUtcMs),
    title: `Burn ${number}`,
    startedUtcMs,
    marks: own(sample.marks),
    weighings: own(sample.weighings),
    exclusions: own(sample.exclusions ?? []),
    ...change,
  };
}

/** Corrects a mistyped figure of a burn. */
export function correctWeighing({ store }: Pick<PublishingBench, 'store'>, burn: string): void {
  const { id, version, body } = store.documents.ofBurn('weighing', burn)[0]!;
  store.documents.revise('weighing', id, { expectedVersion: version, body: { ...body, massKg: body.massKg! + 0.1 } });
}

export interface PublishingBench {
  store: Store;
  save(record: BurnRecord): Promise<unknown>;
  publish(folder: string): Promise<ReturnType<Publisher['state']>>;
}

export async function publishingBench(
  records: readonly BurnRecord[],
  data = temporaryFolder(),
): Promise<PublishingBench> {
  const store = openTestStore(data);
  for (const record of records) await saveRecord(store, record);
  const publisher = publisherHere(store);
  onTestFinished(() => publisher.close());
  return {
    store,
    save: (record) => saveRecord(store, record),
    publish: (folder) => publishHere(publisher, folder),
  };
}

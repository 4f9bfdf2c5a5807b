/** A bench of a test with finished burns, that publishes. */
import { onTestFinished } from 'vitest';
import { derivedId } from '../../server/base/identifiers.ts';
import { doDatasetJob } from '../../server/dataset/dataset-jobs.ts';
import { createPublisher, type Publisher } from '../../server/dataset/publisher.ts';
import type { DatasetWriter } from '../../server/dataset/write-in-thread.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import type { Store } from '../../server/store/store.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { BurnRecord, MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { recordOf, sampleRecord } from '../exports/sample-burn.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { openTestStore } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** The published sample as another burn, of its own time and identifiers. */
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

/** Here and now: what a thread of its own does is tried with the service. */
const writesHere: DatasetWriter = { do: async (job) => doDatasetJob(job), close: async () => {} };

const known = new Map<string, Analysis>();

/** Of fewer draws, and once for each state of a burn: what a result is made of is not looked at here. */
function quickAnalysis(record: BurnRecord, method: MethodSet | undefined): Analysis {
  const key = `${method} ${JSON.stringify(record)}`;
  const analysis = known.get(key) ?? analyse(record, { ...(method && { method }), draws: 100 });
  known.set(key, analysis);
  return analysis;
}

export interface PublishingBench {
  store: Store;
  save(record: BurnRecord): Promise<unknown>;
  /** Publishes, and waits until that has ended. */
  publish(folder: string): Promise<ReturnType<Publisher['state']>>;
}

export async function publishingBench(
  records: readonly BurnRecord[],
  data = temporaryFolder(),
): Promise<PublishingBench> {
  const store = openTestStore(data);
  for (const record of records) await saveRecord(store, record);
  const publisher = createPublisher({
    store,
    clock: createFakeClock(),
    writer: writesHere,
    version: '0.0.0',
    results: { analysis: async (burnId, method) => quickAnalysis(recordOf(store, burnId), method) },
  });
  onTestFinished(() => publisher.close());
  return {
    store,
    save: (record) => saveRecord(store, record),
    async publish(folder) {
      publisher.begin(folder);
      await publisher.idle();
      return publisher.state();
    },
  };
}

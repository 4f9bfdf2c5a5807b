/**
 * Publishes inside this process, with fast analyses and without the worker process, which the tests of the service
 * cover.
 */
import type { Clock } from '../../server/base/clock.ts';
import { doFileJob, makePlan } from '../../server/dataset/dataset-jobs.ts';
import type { DatasetWork } from '../../server/dataset/dataset-work.ts';
import { createPublisher, type Publisher } from '../../server/dataset/publisher.ts';
import { createWorkUnderWay } from '../../server/live/work-under-way.ts';
import { readBoards } from '../../server/records/board-readings.ts';
import { assembleRecord } from '../../server/records/burn-record.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import type { Store } from '../../server/store/store.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { BurnRecord, MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { createFakeClock } from '../support/fake-clock.ts';

const worksHere = (store: Store): DatasetWork => ({
  plan: async (job) => makePlan(job),
  write: (_folder, job) => doFileJob(store, job),
});

const known = new Map<string, Analysis>();

/** Analyses with fewer draws, and once for each state of a burn: the values of results do not matter here. */
function quickAnalysis(record: BurnRecord, method: MethodSet | undefined): Analysis {
  const key = `${method} ${JSON.stringify(record)}`;
  const analysis = known.get(key) ?? analyse(record, { ...(method && { method }), draws: 100 });
  known.set(key, analysis);
  return analysis;
}

export function publisherHere(store: Store): Publisher {
  const clock: Clock = createFakeClock();
  const recordOf = (id: string) => assembleRecord(recordWithoutReadings(store, id), readBoards(store, id));
  return createPublisher({
    store,
    clock,
    work: worksHere(store),
    workUnderWay: createWorkUnderWay({ show: () => {} }, () => 'a publication'),
    version: '0.0.0',
    results: { analysis: async (burnId, method) => quickAnalysis(recordOf(burnId), method) },
  });
}

/** Publishes, and waits until that has ended. */
export async function publishHere(publisher: Publisher, folder: string): Promise<ReturnType<Publisher['state']>> {
  publisher.begin(folder);
  await publisher.idle();
  return publisher.state();
}

/** The worker process: its jobs, and the code that does each. Every part is loaded when it is first needed. */
import { proveJob, sealJob } from './backup/backup-jobs.ts';
import { useCompileCache } from './base/start-up.ts';
import { createComparedBurns } from './comparisons/compared-burns.ts';
import {
  cardJob,
  comparisonJob,
  comparisonReportJob,
  costJob,
  levelJob,
  nextTestJob,
  predictionJob,
} from './comparisons/comparison-jobs.ts';
import type { createComparisons } from './comparisons/comparisons.ts';
import { fileJob, planJob } from './dataset/dataset-work.ts';
import { burnFileJob, packageJob } from './exports/export-jobs.ts';
import { lookJob, readJob } from './imports/import-jobs.ts';
import { cleanPhotoJob } from './photos/photo-jobs.ts';
import { burnReportJob } from './reports/report-jobs.ts';
import { analysisJob } from './results/analyst.ts';
import type { Results } from './results/results.ts';
import type { Store } from './store/store.ts';
import type { Job, JobContext, JobStream } from './worker/job.ts';
import { runWorker } from './worker/run-worker.ts';
import { handler, streamHandler } from './worker/serve-jobs.ts';

useCompileCache();

/** Not before the thread for foreign files is started, which loads it for itself. */
const loadStore = () => import('./store/open-store.ts');

/**
 * Opens the store for the duration of the work only, so that it is closed before the service closes the database:
 * SQLite removes the write-ahead log when the last connection closes, and this one is read-only.
 */
async function reading<T>(folder: string, work: (store: Store) => Promise<T>): Promise<T> {
  const { openStoreToRead } = await loadStore();
  const store = openStoreToRead(folder);
  try {
    return await work(store);
  } finally {
    store.close();
  }
}

interface Source {
  store: Store;
  results: Results;
}

/** The same with the results of its burns; results computed in the process are published. */
function withResults<T>(folder: string, context: JobContext, work: (source: Source) => Promise<T>): Promise<T> {
  return reading(folder, async (store) => {
    const { workerResults } = await import('./results/worker-results.ts');
    return work({ store, results: workerResults(store, context) });
  });
}

/** The same for as long as the pieces of a stream are read. */
async function streaming<Head, Piece>(
  folder: string,
  context: JobContext,
  work: (source: Source) => Promise<JobStream<Head, Piece>>,
): Promise<JobStream<Head, Piece>> {
  const { workerResults } = await import('./results/worker-results.ts');
  const { openStoreToRead } = await loadStore();
  const store = openStoreToRead(folder);
  try {
    const { head, pieces } = await work({ store, results: workerResults(store, context) });
    return { head, pieces: closing(store, pieces) };
  } catch (error) {
    store.close();
    throw error;
  }
}

async function* closing<Piece>(store: Store, pieces: JobStream<unknown, Piece>['pieces']): AsyncGenerator<Piece> {
  try {
    yield* pieces;
  } finally {
    store.close();
  }
}

type Comparisons = ReturnType<typeof createComparisons>;

const comparedBurns = createComparedBurns();

/** Connects a job about several burns to the comparison that computes it. */
function comparing<Question extends { folder: string }, Answer>(
  job: Job<Question, Answer>,
  answer: (comparisons: Comparisons, asked: Question) => Promise<Answer>,
) {
  return handler(job, async (asked, context) => {
    const { createComparisons } = await import('./comparisons/comparisons.ts');
    return withResults(asked.folder, context, ({ store, results }) =>
      answer(createComparisons(store, results, comparedBurns, context), asked),
    );
  });
}

runWorker(
  new URL('./worker-process', import.meta.url),
  new Map([
    handler(analysisJob, async (input) => {
      const { compute } = await import('./results/compute.ts');
      return reading(input.folder, (store) => compute(store, input));
    }),
    handler(lookJob, async (input, context) => {
      const { lookAt } = await import('./imports/import-work.ts');
      return reading(input.folder, (store) => lookAt(store, input, context));
    }),
    streamHandler(readJob, async (input, context) => {
      const { readBurns } = await import('./imports/import-work.ts');
      const { pages, ...head } = await reading(input.folder, (store) => readBurns(store, input, context));
      return { head, pieces: pages };
    }),
    handler(proveJob, async (input, context) => {
      const { proveBackup } = await import('./backup/prove-backup.ts');
      return proveBackup(input, context);
    }),
    handler(sealJob, async ({ folder, burnId }) => {
      const { readingsChecksum } = await import('./backup/readings-seal.ts');
      return reading(folder, (store) => readingsChecksum(store, burnId));
    }),
    handler(cleanPhotoJob, async (bytes) => {
      const { cleanPhoto } = await import('./photos/clean-photo.ts');
      return cleanPhoto(bytes);
    }),
    handler(planJob, async (input) => {
      const { makePlan } = await import('./dataset/dataset-jobs.ts');
      return makePlan(input);
    }),
    handler(fileJob, async ({ folder, job }) => {
      const { doFileJob } = await import('./dataset/dataset-jobs.ts');
      return reading(folder, (store) => doFileJob(store, job));
    }),
    streamHandler(burnFileJob, async (input, context) => {
      const { writeBurnFile } = await import('./exports/export-work.ts');
      return streaming(input.folder, context, (source) => writeBurnFile(source, input));
    }),
    streamHandler(packageJob, async (input, context) => {
      const { writePackage } = await import('./exports/export-work.ts');
      return streaming(input.folder, context, (source) => writePackage(source, input, context));
    }),
    handler(burnReportJob, async (input, context) => {
      const { writeBurnReport } = await import('./reports/write-reports.ts');
      const { folder, burnId, format, choices, version } = input;
      return withResults(folder, context, (source) => writeBurnReport({ ...source, version }, burnId, format, choices));
    }),
    comparing(comparisonJob, (comparisons, asked) => comparisons.compare(asked)),
    comparing(comparisonReportJob, (comparisons, asked) => comparisons.comparisonReport(asked)),
    comparing(nextTestJob, (comparisons, asked) => comparisons.nextTest(asked)),
    comparing(cardJob, (comparisons, asked) => comparisons.card(asked)),
    comparing(levelJob, (comparisons, asked) => comparisons.level(asked)),
    comparing(predictionJob, (comparisons, asked) => comparisons.prediction(asked)),
    comparing(costJob, (comparisons, asked) => comparisons.cost(asked)),
  ]),
);

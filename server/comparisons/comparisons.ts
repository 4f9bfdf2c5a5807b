/** Revision against revision, level over time, another load and cost, from the burns in a store. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
import { costOf } from '../../shared/comparison/cost.ts';
import { driftOf } from '../../shared/comparison/drift.ts';
import type { Observation } from '../../shared/comparison/prediction/predict-from-records.ts';
import type { Comparison } from '../../shared/contract/comparison.ts';
import type { NextTest } from '../../shared/contract/next-test.ts';
import { AppError } from '../base/app-error.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import type { JobContext } from '../worker/job.ts';
import type { ComparedBurns } from './compared-burns.ts';
import type {
  Asked,
  AskedOnPaper,
  CardFormat,
  ComparisonFormat,
  ComparisonQuestion,
  costJob,
  levelJob,
  NextTestQuestion,
  Printed,
  predictionJob,
} from './comparison-jobs.ts';

type InputOf<J> = J extends { types?: (input: infer Input) => unknown } ? Input : never;

/**
 * @param comparedBurns known from questions before
 * @param context tells how many of the burns have been gone through, and whether anybody still waits
 */
export function createComparisons(
  store: Store,
  results: Results,
  comparedBurns: ComparedBurns,
  { signal, progress }: Omit<JobContext, 'publish'>,
) {
  /** One after another, with a turn for shorter work between any two. */
  async function each<T>(ids: readonly string[], of: (burnId: string) => Promise<T>): Promise<T[]> {
    const found: T[] = [];
    for (const burnId of ids) {
      found.push(await of(burnId));
      progress(found.length, ids.length);
      await nextTurn();
      signal.throwIfAborted();
    }
    return found;
  }

  const compared = (burnId: string): Promise<ComparedBurn> =>
    comparedBurns(store, burnId, () => results.compared(burnId));
  const allOf = (ids: readonly string[]) => each(ids, compared);

  /** Burns of each revision of the stove that none of these burns is of. */
  async function otherRevisions(burns: readonly ComparedBurn[]): Promise<ComparedBurn[][]> {
    const stoveId = burns[0]?.burn.revision?.stoveId;
    const own = new Set(burns.map(({ burn }) => burn.revision?.id));
    if (stoveId === undefined || burns.some(({ burn }) => burn.revision?.stoveId !== stoveId)) return [];
    const others = store.documents.list('revision').filter(({ id, body }) => body.stoveId === stoveId && !own.has(id));
    const found: ComparedBurn[][] = [];
    for (const revision of others) found.push(await allOf(burntIds(store, revision.id)));
    return found;
  }

  /** @throws AppError comparison/burn-twice, burn/not-found */
  async function compare({ question, language }: Asked<ComparisonQuestion>): Promise<Comparison> {
    const { a, b, adjust, ladder, plannedDays, primary, blocks } = question;
    const ids = [...a, ...b];
    const twice = ids.find((one, index) => ids.indexOf(one) !== index);
    if (twice !== undefined) throw new AppError('comparison/burn-twice', { id: twice });
    const burns = await allOf(ids);
    return compareRevisions(burns.slice(0, a.length), burns.slice(a.length), {
      language,
      adjust: adjust === 'yes',
      ...(ladder === 'yes' && { others: await otherRevisions(burns) }),
      ...(plannedDays !== undefined && { plannedDays }),
      ...(primary && { primary }),
      ...(blocks && { blocks }),
    });
  }

  /** @throws AppError shelf/not-found */
  async function nextTest({ question, language }: Asked<NextTestQuestion>): Promise<NextTest> {
    const [{ nextTestOf }, { ideaSchema }] = await Promise.all([
      import('../../shared/comparison/next-test.ts'),
      import('../../shared/contract/next-test.ts'),
    ]);
    const { revision: revisionId, ...idea } = question;
    const revision = store.documents.get('revision', revisionId);
    if (!revision) throw new AppError('shelf/not-found', { kind: 'revision', id: revisionId });
    const base = await allOf(burntIds(store, revisionId));
    const found = nextTestOf(ideaSchema.parse(idea), base, await otherRevisions(base), language);
    // A revision that was not burnt yet has no burn to be named by.
    return { ...found, base: revision.body.label };
  }

  return {
    compare,
    nextTest,

    async comparisonReport(asked: AskedOnPaper<ComparisonQuestion, ComparisonFormat>): Promise<Printed> {
      const { question, language, paper, format, version } = asked;
      const comparison = await compare(asked);
      const { writeComparisonReport } = await loadReports();
      const given = { comparison, a: question.a, b: question.b, methodVersion: METHOD_VERSION };
      return writeComparisonReport({ store, results, version }, given, format, { language, paper });
    },

    async card(asked: AskedOnPaper<NextTestQuestion, CardFormat>): Promise<Printed> {
      const { writeCard } = await loadReports();
      return writeCard(await nextTest(asked), asked.format, asked, asked.version);
    },

    level: async ({ question, language }: InputOf<typeof levelJob>) =>
      driftOf(await allOf(question.burns), question.result, language),

    async prediction({ question, language }: InputOf<typeof predictionJob>) {
      const { observe, predictFromObservations } = await import(
        '../../shared/comparison/prediction/predict-from-records.ts'
      );
      const ids = [...new Set([...question.burns, ...coolingIds(store, question.burns)])];
      const seen = await each(
        ids,
        async (burnId): Promise<Observation> => observe(await compared(burnId), await results.water(burnId)),
      );
      return predictFromObservations(seen, question.load, language);
    },

    cost: async ({ question }: InputOf<typeof costJob>) => costOf(await allOf(question.burns), question.prices),
  };
}

const loadReports = () => import('../reports/write-reports.ts');

/** Burns of a revision that were begun at least. */
function burntIds(store: Store, revisionId: string): string[] {
  return store.documents
    .list('burn')
    .filter(({ withdrawn, body }) => !withdrawn && body.revisionId === revisionId && body.status !== 'planned')
    .map(({ id: burnId }) => burnId);
}

/** Cooling runs that are over, of the vessels of some burns. */
function coolingIds(store: Store, burnIds: readonly string[]): string[] {
  const vessels = new Set(burnIds.map((burnId) => store.documents.get('burn', burnId)?.body.vesselId));
  return store.documents
    .list('burn')
    .filter(({ withdrawn, body }) => !withdrawn && body.purpose === 'cooling' && body.status === 'complete')
    .filter(({ body }) => body.vesselId !== undefined && vessels.has(body.vesselId))
    .map(({ id: burnId }) => burnId);
}

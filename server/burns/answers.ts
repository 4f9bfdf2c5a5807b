import type { WaterTemperatures } from '../../shared/comparison/prediction/observed-burn.ts';
import type { Series } from '../../shared/contract/api.ts';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { Store } from '../store/store.ts';
import type { Job } from './analysis-jobs.ts';
import type { Analyst } from './analyst.ts';
import { readBoardsInTurns } from './board-readings.ts';
import { analysisName } from './kept-analysis.ts';
import { createKeptSeries } from './kept-series.ts';
import { draftRecord, type RecordDraft, stampOf } from './record-draft.ts';
import type { SeriesRequest } from './series.ts';

/** What is computed from a burn. The same state of the burn is computed once; what it came to is kept. */
export interface Answers {
  /** @param method instead of the burn's own */
  analysis(burnId: string, method?: MethodSet): Promise<Analysis>;
  /** The water without the stretches that the analysis does not trust. */
  water(burnId: string): Promise<WaterTemperatures>;
  /** Curves for a chart. */
  series(burnId: string, request: SeriesRequest): Promise<Series>;
}

export function createAnswers(store: Store, analyst: Analyst): Answers {
  /** Two pages asking at once are answered by one computation. */
  const underWay = new Map<string, Promise<Analysis>>();
  const keptSeries = createKeptSeries();

  const ask = async (draft: RecordDraft, job: Job) =>
    analyst.do({ draft, boards: await readBoardsInTurns(store, draft.id), job });

  async function compute(draft: RecordDraft, method: MethodSet, name: string, stamp: string): Promise<Analysis> {
    const analysis = (await ask(draft, { kind: 'analyse', method })) as Analysis;
    // The burn may have been removed meanwhile; one that runs is another one a second later.
    if (draft.status !== 'running' && store.documents.get('burn', draft.id)) {
      store.derived.put(draft.id, name, stamp, analysis);
    }
    return analysis;
  }

  return {
    async analysis(burnId, chosen) {
      const draft = draftRecord(store, burnId);
      const method = chosen ?? draft.methodSet;
      const name = analysisName(method);
      const stamp = stampOf(store, draft);
      const kept = store.derived.get(burnId, name, stamp);
      if (kept) return kept as Analysis;
      const key = `${burnId} ${name} ${stamp}`;
      const computing = underWay.get(key) ?? compute(draft, method, name, stamp).finally(() => underWay.delete(key));
      underWay.set(key, computing);
      return computing;
    },

    async water(burnId) {
      const analysis = await this.analysis(burnId);
      return (await ask(draftRecord(store, burnId), { kind: 'water', analysis })) as WaterTemperatures;
    },

    async series(burnId, request) {
      const draft = draftRecord(store, burnId);
      const stamp = stampOf(store, draft);
      const kept = keptSeries.get(burnId, request, stamp);
      if (kept) return kept;
      const series = (await ask(draft, { kind: 'series', request })) as Series;
      // The readings of a burn that runs are others a second later.
      if (draft.status !== 'running') keptSeries.put(burnId, request, stamp, series);
      return series;
    },
  };
}

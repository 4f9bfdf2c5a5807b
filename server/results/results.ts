import { METHOD_VERSION, REMARKS_VERSION } from '../../shared/analysis/versions.ts';
import type { WaterTemperatures } from '../../shared/comparison/prediction/observed-burn.ts';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { Series } from '../../shared/contract/series.ts';
import type { SeriesRequest } from '../curves/series.ts';
import {
  type RecordWithoutReadings,
  recordWithoutReadings,
  stampOf,
  statedBurn,
} from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';
import type { Analyst, Computation } from './analyst.ts';
import { createSharedWork } from './shared-work.ts';
import { analysisName } from './stored-analysis.ts';

/** What is computed from a burn. The same state of the burn is computed once; what it came to is kept. */
export type Results = ReturnType<typeof createResults>;

export function createResults(store: Store, analyst: Analyst) {
  /** Two pages asking at once are answered by one computation. */
  const once = createSharedWork<unknown>();

  function save(burnId: string, name: string, stamp: string, answer: unknown): void {
    try {
      store.derived.put(burnId, name, stamp, answer);
    } catch {
      // A full disk has an alarm of its own, and what was computed can be computed again.
    }
  }

  const ask = (record: RecordWithoutReadings, computation: Computation, signal?: AbortSignal) =>
    analyst.do({ folder: store.folder, record, computation }, signal);

  async function compute(
    record: RecordWithoutReadings,
    method: MethodSet,
    name: string,
    stamp: string,
    signal: AbortSignal,
  ): Promise<Analysis> {
    const analysis = (await ask(record, { kind: 'analyse', method }, signal)) as Analysis;
    // The burn may have been removed meanwhile; one that runs is another one a second later.
    if (record.status !== 'running' && store.documents.get('burn', record.id)) save(record.id, name, stamp, analysis);
    return analysis;
  }

  async function known(
    burnId: string,
    chosen: MethodSet | undefined,
    signal: AbortSignal | undefined,
  ): Promise<Analysis> {
    const { record, stamp } = statedBurn(store, burnId);
    const method = chosen ?? record.methodSet;
    const name = analysisName(method);
    const stored = store.derived.get(burnId, name, stamp) as Analysis | undefined;
    if (stored?.remarksVersion === REMARKS_VERSION) return stored;
    const key = `${burnId} ${name} ${stamp}`;
    return once(key, (wanted) => compute(record, method, name, stamp, wanted), signal) as Promise<Analysis>;
  }

  return {
    /**
     * @param chosen instead of the burn's own method
     * @param signal of whoever waits for it
     */
    async analysis(burnId: string, chosen?: MethodSet, signal?: AbortSignal): Promise<Analysis> {
      const analysis = await known(burnId, chosen, signal);
      const isComplete = store.gaps.open(burnId).length === 0;
      return isComplete
        ? analysis
        : { ...analysis, remarks: [...analysis.remarks, { code: 'stillFetching', params: {} }] };
    },

    /** The water without the stretches that the analysis does not trust. */
    async water(burnId: string): Promise<WaterTemperatures> {
      const analysis = await this.analysis(burnId);
      return (await ask(recordWithoutReadings(store, burnId), { kind: 'water', analysis })) as WaterTemperatures;
    },

    /** Curves for a chart. */
    async series(burnId: string, request: SeriesRequest, signal?: AbortSignal): Promise<Series> {
      const record = recordWithoutReadings(store, burnId);
      // A stretch looked at closely is looked at once; whole burns are laid over each other again and again.
      const isWhole = request.fromS === undefined && request.toS === undefined;
      const isStored = isWhole && record.status !== 'running';
      const name = `series ${request.points} ${METHOD_VERSION}`;
      const stamp = curvesStamp(store, record);
      const stored = isStored ? store.derived.get(burnId, name, stamp) : undefined;
      if (stored) return stored as Series;
      const key = `${burnId} ${name} ${stamp} ${request.fromS} ${request.toS}`;
      const draw = (wanted: AbortSignal) => ask(record, { kind: 'series', request }, wanted);
      const series = (await once(key, draw, signal)) as Series;
      if (isStored && store.documents.get('burn', burnId)) save(burnId, name, stamp, series);
      return series;
    },

    /** Makes the curves of a burn that is over before anybody asks for them. */
    async prepare(burnId: string): Promise<void> {
      // Nothing is lost when the service closes meanwhile, or the burn is removed: they are made when somebody asks.
      await Promise.allSettled(usualPoints.map((points) => this.series(burnId, { points })));
    },
  };
}

/** Points a curve that pages ask for whole burns in. */
const usualPoints = [400, 800];

/** Changes with whatever the curves are made of; weighings and words are not. */
function curvesStamp(store: Store, { id, channels, exclusions, marks, place, gaps }: RecordWithoutReadings): string {
  return stampOf(store, id, { channels, exclusions, marks, place, gaps });
}

import { METHOD_VERSION, REMARKS_VERSION } from '../../shared/analysis/versions.ts';
import type { ComparedBurn } from '../../shared/comparison/compared-burn.ts';
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
import { saveComparedBurn, storedComparedBurn } from './stored-compared-burn.ts';

/** What is computed from a burn. The same state of the burn is computed once, and the result is stored. */
export type Results = ReturnType<typeof createResults>;

/** @param put saves a value, in place of a store that is open for reading only */
export function createResults(
  store: Store,
  analyst: Analyst,
  put: Store['derived']['put'] = (...value) => store.derived.put(...value),
) {
  /** Simultaneous requests of two pages share one computation. */
  const once = createSharedWork<unknown>();

  function save(burnId: string, name: string, stamp: string, answer: unknown): void {
    try {
      put(burnId, name, stamp, answer);
    } catch {
      // A full disk has an alarm of its own, and the result can be computed again.
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
    // The burn may have been removed during the computation; the state of a running burn is outdated a second later.
    if (record.status !== 'running' && store.documents.get('burn', record.id)) {
      save(record.id, name, stamp, analysis);
      if (method === record.methodSet) saveComparedBurn(store, record.id, { stamp, analysis }, save);
    }
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
     * @param signal aborts this caller's wait
     */
    async analysis(burnId: string, chosen?: MethodSet, signal?: AbortSignal): Promise<Analysis> {
      const analysis = await known(burnId, chosen, signal);
      const isComplete = store.gaps.open(burnId).length === 0;
      return isComplete
        ? analysis
        : { ...analysis, remarks: [...analysis.remarks, { code: 'stillFetching', params: {} }] };
    },

    /** What comparisons read of a burn and its results; shared, and not to be changed. */
    async compared(burnId: string): Promise<ComparedBurn> {
      const stored = storedComparedBurn(store, burnId);
      if (stored) return stored;
      const { record: burn, stamp } = statedBurn(store, burnId);
      const analysis = await this.analysis(burnId);
      saveComparedBurn(store, burnId, { stamp, analysis }, save);
      return { burn, analysis };
    },

    /** The water temperatures without the stretches that the analysis excludes. */
    async water(burnId: string): Promise<WaterTemperatures> {
      const analysis = await this.analysis(burnId);
      return (await ask(recordWithoutReadings(store, burnId), { kind: 'water', analysis })) as WaterTemperatures;
    },

    /** Curves for a chart. */
    async series(burnId: string, request: SeriesRequest, signal?: AbortSignal): Promise<Series> {
      const record = recordWithoutReadings(store, burnId);
      // An enlarged stretch is requested once; whole burns are requested again for every overlay.
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

    /** Computes the curves of a finished burn in advance. */
    async prepare(burnId: string): Promise<void> {
      // Nothing is lost when the service closes or the burn is removed in between: the curves are then computed on
      // request.
      await Promise.allSettled(usualPoints.map((points) => this.series(burnId, { points })));
    },
  };
}

/** Numbers of points with which pages request the curves of whole burns. */
const usualPoints = [400, 800];

/** Changes with the data from which the curves are computed; weighings and texts are not among them. */
function curvesStamp(store: Store, { id, channels, exclusions, marks, place, gaps }: RecordWithoutReadings): string {
  return stampOf(store, id, { channels, exclusions, marks, place, gaps });
}

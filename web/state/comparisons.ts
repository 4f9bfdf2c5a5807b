/** Comparisons, levels, predictions and costs as the service works them out. */
import type { Comparison, Cost, Drift, Prices } from '../../shared/contract/comparison.ts';
import type { Load, Prediction } from '../../shared/contract/prediction.ts';
import { type Method, request } from '../lib/api.ts';
import type { CompareOptions } from '../lib/compare-route.ts';
import { language } from './preferences.ts';

/** Analysing many burns for the first time takes the service a while. */
const timeoutMs = 180_000;

function ask<T>(method: Method, path: string, body?: unknown): Promise<T> {
  return request<T>(method, path, { language: language.value, timeoutMs, ...(body !== undefined && { body }) });
}

export interface ComparedIds {
  readonly a: readonly string[];
  readonly b: readonly string[];
}

/** What is asked, as it stands in the address of the answer and of its reports. */
export function comparisonQuery({ a, b }: ComparedIds, { blocks, adjust, primary }: CompareOptions): string {
  return [
    `a=${a.join(',')}`,
    `b=${b.join(',')}`,
    ...(blocks === 'none' ? [] : [`blocks=${blocks}`]),
    ...(adjust ? [] : ['adjust=no']),
    ...(primary ? [`primary=${primary}`] : []),
  ].join('&');
}

export function fetchComparison(ids: ComparedIds, options: CompareOptions): Promise<Comparison> {
  return ask('GET', `/comparison?${comparisonQuery(ids, options)}`);
}

/** Undefined where too few burns can be charted. */
export async function fetchLevel(burnIds: readonly string[], result: string): Promise<Drift | undefined> {
  return (await ask<{ level?: Drift }>('GET', `/level?burns=${burnIds.join(',')}&result=${result}`)).level;
}

export function predict(burnIds: readonly string[], load: Load): Promise<Prediction> {
  return ask('POST', '/predictions', { burns: burnIds, load });
}

/** Undefined where no burn made a whole batch. */
export async function fetchCost(burnIds: readonly string[], prices: Prices): Promise<Cost | undefined> {
  return (await ask<{ cost?: Cost }>('POST', '/costs', { burns: burnIds, prices })).cost;
}

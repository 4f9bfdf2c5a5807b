/** Requests for comparisons, levels, predictions and costs, which the service computes. */
import type { Comparison, Cost, Drift, Prices } from '../../shared/contract/comparison.ts';
import type { NextTest } from '../../shared/contract/next-test.ts';
import type { Load, Prediction } from '../../shared/contract/prediction.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import type { QueryOf } from '../../shared/contract/routes.ts';
import type { CompareOptions } from '../addresses/compare-route.ts';
import { call } from './service.ts';

/** Analysing many burns for the first time takes the service a while. */
const timeoutMs = 180_000;

export interface ComparedIds {
  readonly a: readonly string[];
  readonly b: readonly string[];
  /** Whether both sides contain all burns of a revision: then they are a step among all revisions of their stove. */
  readonly wholeRevisions: boolean;
}

/** The query of a comparison, for its request and its reports. */
export function comparisonQuery(
  { a, b, wholeRevisions }: ComparedIds,
  { blocks, adjust, primary }: CompareOptions,
): QueryOf<'GET /comparison'> {
  return {
    a: a.join(','),
    b: b.join(','),
    ...(blocks !== 'none' && { blocks }),
    ...(!adjust && { adjust: 'no' }),
    ...(primary && { primary }),
    ...(wholeRevisions && { ladder: 'yes' }),
  };
}

export function fetchComparison(ids: ComparedIds, options: CompareOptions): Promise<Comparison> {
  return call('GET /comparison', { query: comparisonQuery(ids, options), timeoutMs });
}

/** The query of an idea, for its request and its card. */
export function ideaQuery({ revisionId, change, parts, lots }: AskedIdea): QueryOf<'GET /next-test'> {
  return {
    revision: revisionId,
    change,
    ...(parts.length > 0 && { parts: parts.join(';') }),
    ...(lots.length > 0 && { lots: lots.join(';') }),
  };
}

export interface AskedIdea {
  readonly revisionId: string;
  readonly change: string;
  readonly parts: readonly string[];
  /** Name and number of burns, as typed: "oak: 6". */
  readonly lots: readonly string[];
}

export function fetchNextTest(idea: AskedIdea): Promise<NextTest> {
  return call('GET /next-test', { query: ideaQuery(idea), timeoutMs });
}

/** Undefined where there are too few burns for a chart. */
export async function fetchLevel(burnIds: readonly string[], result: ResultId): Promise<Drift | undefined> {
  return (await call('GET /level', { query: { burns: burnIds.join(','), result }, timeoutMs })).level;
}

export function predict(burnIds: readonly string[], load: Load): Promise<Prediction> {
  return call('POST /predictions', { body: { burns: [...burnIds], load }, timeoutMs });
}

/** Undefined where no burn made a whole batch. */
export async function fetchCost(burnIds: readonly string[], prices: Prices): Promise<Cost | undefined> {
  return (await call('POST /costs', { body: { burns: [...burnIds], prices }, timeoutMs })).cost;
}

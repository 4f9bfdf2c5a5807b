import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { recordWithoutReadings, statedBurn } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';
import type { Analyst } from './analyst.ts';

/**
 * The name under which an analysis is stored: another method or another version of the definitions has another name.
 */
export function analysisName(method: MethodSet): string {
  return `${anyVersionOf(method)}${METHOD_VERSION}`;
}

const anyVersionOf = (method: MethodSet) => `analysis ${method} `;

/** Whether this burn was analysed, by its own method, with another version of the definitions. */
export function isStoredByOtherVersion(store: Store, burnId: string): boolean {
  const { methodSet } = recordWithoutReadings(store, burnId);
  return store.derived
    .names(burnId)
    .some((name) => name.startsWith(anyVersionOf(methodSet)) && name !== analysisName(methodSet));
}

/** The stored analysis of the present state of a burn, by its own method; undefined when there is none. */
export function storedAnalysis(store: Store, burnId: string): Analysis | undefined {
  const { record, stamp } = statedBurn(store, burnId);
  return store.derived.get(burnId, analysisName(record.methodSet), stamp) as Analysis | undefined;
}

/** Computes the analysis now, regardless of a stored one. */
export async function recompute(store: Store, analyst: Analyst, burnId: string): Promise<Analysis> {
  const record = recordWithoutReadings(store, burnId);
  const computation = { kind: 'analyse', method: record.methodSet } as const;
  return (await analyst.do({ folder: store.folder, record, computation })) as Analysis;
}

/** The data of a burn that comparisons use: its description and its analysis, without readings. */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Analysis, MissingResult, ResultId, ValueResult } from '../contract/results.ts';

export type BurnDocument = Omit<BurnRecord, 'readings' | 'channels' | 'gaps' | 'exclusions'>;

/** A result without its working. */
export type ResultWithBudget = Pick<ValueResult, 'id' | 'value' | 'unit' | 'standardUncertainty' | 'budget'>;

export interface ComparedBurn {
  burn: BurnDocument;
  analysis: Pick<Analysis, 'method' | 'moments'> & { results: readonly (ResultWithBudget | MissingResult)[] };
}

export type Side = 'a' | 'b';

/** Returns the result with that id, or undefined when it is missing. */
export function resultOf({ analysis }: Pick<ComparedBurn, 'analysis'>, id: ResultId): ResultWithBudget | undefined {
  const result = analysis.results.find((candidate) => candidate.id === id);
  return result && 'value' in result ? result : undefined;
}

/** Factors to coherent SI of the units of results that are not. */
const inSi: Readonly<Record<string, number>> = { MJ: 1e6, kJ: 1e3, kW: 1e3, h: 3600, min: 60, g: 1e-3 };

/** Value of a result in coherent SI units, undefined when it is missing. */
export function resultValue(burn: ComparedBurn, id: ResultId): number | undefined {
  const result = resultOf(burn, id);
  return result && result.value * (inSi[result.unit] ?? 1);
}

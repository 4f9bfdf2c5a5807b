/** The data of a burn that comparisons use: its description and its analysis, without readings. */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Analysis, ResultId, ValueResult } from '../contract/results.ts';

export type BurnDocument = Omit<BurnRecord, 'readings'>;

export interface ComparedBurn {
  burn: BurnDocument;
  analysis: Analysis;
}

export type Side = 'a' | 'b';

/** Returns the result with that id, or undefined when it is missing. */
export function resultOf({ analysis }: Pick<ComparedBurn, 'analysis'>, id: ResultId): ValueResult | undefined {
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

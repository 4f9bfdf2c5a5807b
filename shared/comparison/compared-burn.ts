/** A burn as comparison sees it: what was described, and what the analysis made of it. The readings are not needed. */
import type { BurnRecord } from '../contract/burn-record.ts';
import type { Analysis, ResultId, ValueResult } from '../contract/results.ts';

export type BurnDocument = Omit<BurnRecord, 'readings'>;

export interface ComparedBurn {
  burn: BurnDocument;
  analysis: Analysis;
}

export type Side = 'a' | 'b';

/** The result of that id when the burn has one. */
export function resultOf({ analysis }: Pick<ComparedBurn, 'analysis'>, id: ResultId): ValueResult | undefined {
  const result = analysis.results.find((candidate) => candidate.id === id);
  return result && 'value' in result ? result : undefined;
}

/** Units of results that are not coherent SI, in SI. */
const inSi: Readonly<Record<string, number>> = { MJ: 1e6, kJ: 1e3, kW: 1e3, h: 3600, min: 60, g: 1e-3 };

/** Value of a result in coherent SI units, undefined when it is missing. */
export function resultValue(burn: ComparedBurn, id: ResultId): number | undefined {
  const result = resultOf(burn, id);
  return result && result.value * (inSi[result.unit] ?? 1);
}

/** Functions to get one result of an analysis. */
import { type AnalyseOptions, analyse, resultOf } from '../../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import { hasValue } from '../../../shared/contract/has-value.ts';
import type { Analysis, ResultId, ValueResult } from '../../../shared/contract/results.ts';

/** Returns the result with its value; throws the reason when it is missing. */
export function found(analysis: Analysis, id: ResultId): ValueResult {
  const result = resultOf(analysis, id);
  if (!hasValue(result)) throw new Error(`${id} is missing: ${result.missing.code}`);
  return result;
}

/** Returns the value only, without Monte Carlo. */
export function resultValue(record: BurnRecord, id: ResultId): number {
  return found(analyse(record, { draws: 0 }), id).value;
}

/** Returns why a result is missing; `undefined` when it is not. */
export function whyMissing(record: BurnRecord, id: ResultId, options: AnalyseOptions = {}): string | undefined {
  const result = resultOf(analyse(record, { draws: 0, ...options }), id);
  return hasValue(result) ? undefined : result.missing.code;
}

export function codes(messages: readonly { code: string }[]): string[] {
  return messages.map(({ code }) => code);
}

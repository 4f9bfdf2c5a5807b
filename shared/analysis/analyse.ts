/**
 * Computes all results of a burn record. Pure and deterministic: the same record gives the same results to the last
 * bit.
 */
import type { BurnRecord, MethodSet } from '../contract/burn-record.ts';
import type { Analysis, Result, ResultId } from '../contract/results.ts';
import { burnRemarks } from './burn-remarks.ts';
import { evaluate } from './engine/evaluation.ts';
import { uncertaintiesOf } from './engine/uncertainty.ts';
import { heatPartsOf, partsOfHeat } from './heat-parts.ts';
import { methodNamed } from './methods/methods.ts';
import { momentsList } from './moments-list.ts';
import { contradictions } from './plausibility/contradictions.ts';
import { curves, fireEndS, fireOut, flaggedCurves, lit, water } from './quantities/burn-curves.ts';
import { placeBoilingPoint } from './quantities/water-temperature.ts';
import { knownQuantities, resultsOf } from './results.ts';
import { suggestedFeedsS } from './suggested-feeds.ts';
import { METHOD_VERSION, REMARKS_VERSION } from './versions.ts';
import { workingsOf } from './workings.ts';

export interface AnalyseOptions {
  /** Overrides the record's own method set. */
  readonly method?: MethodSet;
  /** Monte Carlo draws; 0 gives values without uncertainty. */
  readonly draws?: number;
  readonly seed?: number | string;
}

export const DRAWS = 100_000;

/**
 * Analyses one burn. Returns for every id of `resultIds` a value or the reason why it is missing. The record must have
 * passed its schema and `checkRecord`; what it does not contain makes results missing, never an exception.
 */
export function analyse(record: BurnRecord, options: AnalyseOptions = {}): Analysis {
  const method = methodNamed(options.method ?? record.methodSet, record.purpose);
  const burn = evaluate(record);
  const flagged = burn.fact(flaggedCurves);
  const seen = {
    curves: burn.fact(curves),
    water: burn.fact(water),
    lit: burn.fact(lit),
    fireOut: burn.fact(fireOut),
    placeBoilingPoint: burn.fact(placeBoilingPoint),
  };
  const [draws, seed] = [options.draws ?? DRAWS, options.seed ?? record.id];
  const parts = record.purpose === undefined ? partsOfHeat(burn) : [];
  const wanted = [...knownQuantities(method, burn), ...parts.map(([, quantity]) => quantity)];
  const uncertainties = uncertaintiesOf(burn, [...new Set(wanted)], draws, seed);
  const results = resultsOf(method, burn, uncertainties);
  const heat = heatPartsOf(parts, burn, uncertainties);
  const flags = flagged.flatMap((curve) => curve.stretches());
  const hasOutOfWater = flags.some(({ code }) => code === 'outOfWater');
  return {
    burnId: record.id,
    method: method.name,
    methodVersion: METHOD_VERSION,
    remarksVersion: REMARKS_VERSION,
    results,
    ...(heat.length > 0 && { heat }),
    workings: workingsOf(method, burn, results),
    moments: momentsList(burn, record),
    suggestedFeedsS: seen.lit ? suggestedFeedsS(record, seen.curves, seen.lit.elapsedS, burn.fact(fireEndS)) : [],
    flags,
    excludedShare: Object.fromEntries(flagged.map((curve) => [curve.curve.channel.id, curve.excludedShare])),
    remarks: [...contradictions(record, { ...seen, results, hasOutOfWater }), ...burnRemarks(record)],
  };
}

export function resultOf(analysis: Analysis, id: ResultId): Result {
  return analysis.results.find((result) => result.id === id)!;
}

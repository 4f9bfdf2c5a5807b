/** A burn record in, every result out. Pure and deterministic: the same record gives the same results to the last bit. */
import type { BurnRecord, MethodSet } from '../contract/burn-record.ts';
import { type Analysis, type Message, type Result, type ResultId, resultIds } from '../contract/results.ts';
import { burnRemarks } from './burn-remarks.ts';
import { fireOutMoment, firstPotOn, litMoment, marksOf } from './curves/fire-moments.ts';
import { findPlateau } from './curves/plateau.ts';
import { waterCurve } from './curves/water-curve.ts';
import type { Definition, Method } from './engine/definition.ts';
import { missing } from './engine/messages.ts';
import { Model, sameMessage } from './engine/model.ts';
import { type Quantities, type QuantityName, quantityUnits } from './engine/quantities.ts';
import { propagate, type Uncertainty } from './engine/uncertainty.ts';
import { methodNamed } from './methods/methods.ts';
import { momentsList } from './moments-list.ts';
import { contradictions } from './plausibility/contradictions.ts';
import { defineAttention } from './quantities/attention.ts';
import { boilingPointOfPlace } from './quantities/boiling-point.ts';
import { defineInnerFuel } from './quantities/firebox.ts';
import { defineFuel } from './quantities/fuel.ts';
import { defineHold } from './quantities/hold.ts';
import { defineLoad } from './quantities/load.ts';
import { Scales } from './quantities/masses.ts';
import { stoveScale } from './quantities/stove-scale.ts';
import { defineSurroundings } from './quantities/surroundings.ts';
import { defineTiming } from './quantities/timing.ts';
import { trustedCurves } from './quantities/trusted-curves.ts';
import { defineWaterErrors } from './quantities/water-temperature.ts';
import { suggestedFeedsS } from './suggested-feeds.ts';

export interface AnalyseOptions {
  /** Instead of the record's own method set. */
  readonly method?: MethodSet;
  /** Monte Carlo draws; 0 gives values without uncertainty. */
  readonly draws?: number;
  readonly seed?: number | string;
}

/** Changes whenever a definition or a default changes, so that stored results say what computed them. */
export const METHOD_VERSION = '2';
/** Changes whenever other remarks are made on the burn as a whole, so that kept ones are made anew; no number hangs on it. */
export const REMARKS_VERSION = 1;
export const DRAWS = 100_000;

/**
 * Analyses one burn. Every id of `resultIds` is answered, with a value or with the reason why there is none.
 * The record must have passed its schema and `checkRecord`; what it lacks makes results missing, never an exception.
 */
export function analyse(record: BurnRecord, options: AnalyseOptions = {}): Analysis {
  const method = methodNamed(options.method ?? record.methodSet);
  const model = new Model();
  const flagged = trustedCurves(record);
  const curves = flagged.map(({ curve }) => curve);
  const boiling = boilingPointOfPlace(record, curves, model);
  const water = waterCurve(curves);
  const lit = litMoment(record, curves, water);
  const fireOut = lit && fireOutMoment(record, curves, water, lit.elapsedS);
  const endS = fireOut?.elapsedS ?? water?.timeS.at(-1) ?? 0;
  const feedsS = marksOf(record, 'fed').map((mark) => mark.elapsedUs / 1e6);
  // A pot that is held below the boil rests where its fire lets it; only a boil has a level of its own.
  const isBoil = record.target.kind === 'boil';
  const plateau = isBoil && water && lit ? findPlateau(water, lit.elapsedS, endS, feedsS) : undefined;
  const errors = water && defineWaterErrors(record, water, boiling, plateau, model);
  if (!water) definePlaceOnly();

  const target = defineTiming(record, water, errors, lit, fireOut, model);
  const hold = defineHold(record, water, errors, target, fireOut, model);
  const moments = { lit, target, fireOut };
  const scales = new Scales(record, model);
  defineFuel(record, scales, model);
  const startS = Math.max(
    lit?.elapsedS ?? Number.NEGATIVE_INFINITY,
    (firstPotOn(record)?.elapsedUs ?? Number.NEGATIVE_INFINITY) / 1e6,
  );
  defineLoad(record, curves, water, { startS, targetS: target?.elapsedS, endS: fireOut?.elapsedS }, scales, model);
  const onScale = stoveScale(record, curves, water, { fromS: startS, toS: fireOut?.elapsedS }, model);
  defineInnerFuel(record, moments, hold, onScale, model);
  defineAttention(record, water, errors, moments, model);
  defineSurroundings(record, curves, moments, model);

  const results = answer(method, model, options.draws ?? DRAWS, options.seed ?? record.id);
  return {
    burnId: record.id,
    method: method.name,
    methodVersion: METHOD_VERSION,
    remarksVersion: REMARKS_VERSION,
    results,
    moments: momentsList(record, moments, hold, model.isKnown('litToBoilS')),
    suggestedFeedsS: lit ? suggestedFeedsS(record, curves, lit.elapsedS, endS) : [],
    flags: flagged.flatMap((curve) => curve.stretches()),
    excludedShare: Object.fromEntries(flagged.map((curve) => [curve.curve.channel.id, curve.excludedShare])),
    remarks: [
      ...contradictions(record, { curves, water, lit, fireOut, results }),
      ...model.burnRemarks,
      ...burnRemarks(record),
    ],
  };

  /** Without water probes the boiling point is still that of the place. */
  function definePlaceOnly(): void {
    if (!boiling) {
      model.markMissing('boilingTempC', missing('boilingPointUnknown'));
      return;
    }
    model.define((draw, quantities) => {
      quantities.boilingTempC = boiling.of(draw);
    });
  }
}

function answer(method: Method, model: Model, draws: number, seed: number | string): Result[] {
  const best = model.evaluate(model.bestEstimate());
  const defined = method.definitions.filter((definition) => whyMissing(definition, model, best) === undefined);
  const values = defined.map((definition) => definition.value(best));
  const uncertainties = draws > 0 ? propagate(model, defined, values, draws, seed) : [];
  return resultIds.map((id) => {
    const definition = method.definitions.find((candidate) => candidate.id === id);
    if (!definition) return { id, missing: missing('notDefinedByMethod', { method: method.name }) };
    const why = whyMissing(definition, model, best);
    if (why) return { id, missing: why };
    const index = defined.indexOf(definition);
    return valueResult(definition, method, model, best, values[index]!, uncertainties[index]);
  });
}

function whyMissing(definition: Definition, model: Model, best: Quantities): Message | undefined {
  for (const name of definition.needs) {
    const why = model.missing.get(name);
    if (why) return why;
  }
  const refused = definition.refuse?.(best);
  if (refused) return refused;
  return Number.isFinite(definition.value(best)) ? undefined : missing('notComputable');
}

function valueResult(
  definition: Definition,
  method: Method,
  model: Model,
  best: Quantities,
  value: number,
  uncertainty: Uncertainty | undefined,
): Result {
  const { id, unit, window, needs, formula, source } = definition;
  const touched = needs.flatMap((name) => [name, ...behind(name)]);
  return {
    id,
    value,
    unit,
    window,
    method: method.name,
    ...(uncertainty ?? {}),
    inputs: needs.map((name) => ({ name, value: best[name], unit: quantityUnits[name] })),
    working: { formula, steps: definition.steps?.(best) ?? [], source },
    defaults: collect(touched, model.defaults),
    remarks: [...collect(touched, model.remarks), ...(definition.remarks?.(best) ?? [])],
  };
}

/** Quantities that stand behind another one, whose defaults and remarks therefore count for it as well. */
function behind(name: QuantityName): readonly QuantityName[] {
  if (name === 'loadMJ') return ['startTempC', 'endTempC', 'waterStartKg'];
  if (name === 'loadToTargetMJ') return ['startTempC', 'targetTempC', 'waterStartKg'];
  if (name === 'vapourMJ') return ['evaporatedKg'];
  if (name === 'litToTargetS' || name === 'litToBoilS' || name === 'targetTempC')
    return ['boilingTempC', 'waterOffsetK'];
  return [];
}

function collect(names: readonly QuantityName[], notes: ReadonlyMap<QuantityName, readonly Message[]>): Message[] {
  const messages: Message[] = [];
  for (const name of names) {
    for (const note of notes.get(name) ?? []) {
      if (!messages.some((known) => sameMessage(known, note))) messages.push(note);
    }
  }
  return messages;
}

export function resultOf(analysis: Analysis, id: ResultId): Result {
  return analysis.results.find((result) => result.id === id)!;
}

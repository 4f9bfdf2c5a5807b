/** Times and temperatures at lit, at the target and at fire out, as quantities. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { FoundMoment } from '../curves/fire-moments.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { missing } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import { defineEndTemp, defineStartTemp } from './edge-temperatures.ts';
import { defineMoment } from './moment-error.ts';
import { defineTarget, TARGET_NAMES } from './target.ts';
import type { WaterErrors } from './water-temperature.ts';

/** Answers the moment of the target; `undefined` when it was not reached or cannot be known. */
export function defineTiming(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  lit: FoundMoment | undefined,
  fireOut: FoundMoment | undefined,
  model: Model,
): FoundMoment | undefined {
  const litError = lit && defineMoment('mark.lit', lit, model);
  defineStartTemp(record, water, lit, model);
  defineWhole(lit, litError, fireOut, model);
  defineEndTemp(record, water, fireOut, model);
  if (!lit || litError === undefined) {
    model.markMissing(TARGET_NAMES, missing('litUnknown'));
    return undefined;
  }
  return defineTarget(record, water, errors, lit, litError, fireOut, model);
}

function defineWhole(
  lit: FoundMoment | undefined,
  litError: number | undefined,
  fireOut: FoundMoment | undefined,
  model: Model,
): void {
  if (!lit || litError === undefined) {
    model.markMissing('wholeS', missing('litUnknown'));
    return;
  }
  if (!fireOut) {
    model.markMissing('wholeS', missing('fireOutUnknown'));
    return;
  }
  const wholeS = fireOut.elapsedS - lit.elapsedS;
  if (wholeS <= 0) {
    model.markMissing('wholeS', missing('windowEmpty'));
    return;
  }
  const fireOutError = defineMoment('mark.fireOut', fireOut, model);
  model.define((draw, quantities) => {
    quantities.wholeS = wholeS + draw[fireOutError]! - draw[litError]!;
  });
}

/** Times and temperatures at lit, at the target and at fire out, as ingredients. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { FoundMoment } from '../curves/fire-moments.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { missing } from '../engine/messages.ts';
import type { Ledger } from '../engine/model.ts';
import { enterEndTemp, enterStartTemp } from './edge-temperatures.ts';
import { enterMoment } from './moment-error.ts';
import { enterTarget, TARGET_NAMES } from './target.ts';
import type { WaterErrors } from './water-temperature.ts';

/** Answers the moment of the target; `undefined` when it was not reached or cannot be known. */
export function enterTiming(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  lit: FoundMoment | undefined,
  fireOut: FoundMoment | undefined,
  ledger: Ledger,
): FoundMoment | undefined {
  const litError = lit && enterMoment('mark.lit', lit, ledger);
  enterStartTemp(record, water, lit, ledger);
  enterWhole(lit, litError, fireOut, ledger);
  enterEndTemp(record, water, fireOut, ledger);
  if (!lit || litError === undefined) {
    ledger.lack(TARGET_NAMES, missing('litUnknown'));
    return undefined;
  }
  return enterTarget(record, water, errors, lit, litError, fireOut, ledger);
}

function enterWhole(
  lit: FoundMoment | undefined,
  litError: number | undefined,
  fireOut: FoundMoment | undefined,
  ledger: Ledger,
): void {
  if (!lit || litError === undefined) {
    ledger.lack('wholeS', missing('litUnknown'));
    return;
  }
  if (!fireOut) {
    ledger.lack('wholeS', missing('fireOutUnknown'));
    return;
  }
  const wholeS = fireOut.elapsedS - lit.elapsedS;
  if (wholeS <= 0) {
    ledger.lack('wholeS', missing('windowEmpty'));
    return;
  }
  const fireOutError = enterMoment('mark.fireOut', fireOut, ledger);
  ledger.fill((draw, ingredients) => {
    ingredients.wholeS = wholeS + draw[fireOutError]! - draw[litError]!;
  });
}

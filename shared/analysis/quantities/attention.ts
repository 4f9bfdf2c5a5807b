/** How long the fire can be left alone, and how soon the water warms again after a feed. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { ATTENTIONS } from '../../contract/mark-kinds.ts';
import type { FoundMoment } from '../curves/fire-moments.ts';
import { HOLD_BELOW_BOIL_K } from '../curves/hold-counter.ts';
import { firstIndexAtOrAfter, smooth } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import type { WaterErrors } from './water-temperature.ts';

/** The fire does its job on the way up while the water warms at this share of its usual rate ... */
const RATE_SHARE = 1 / 3;
const RATE_HALF_WIDTH_S = 90;
/** ... a lapse counts after a minute, and the first minutes after lighting and the last kelvins before the target are let off. */
const LAPSE_S = 60;
const LET_OFF_S = 600;
const NEAR_TARGET_K = 3;
const MARK_U_S = 20;
/** A feed is a dip when the rate falls by this share within ten minutes; it has returned at this share. */
const DIP_SHARE = 0.9;
const RETURNED_SHARE = 0.95;
const DIP_WITHIN_S = 600;
/** With readings further apart than this a dip falls between them. */
const DIP_NEEDS_READING_EVERY_S = 60;

export function attentionsS(record: BurnRecord, fromS: number, toS: number): number[] {
  return record.marks
    .filter((mark) => ATTENTIONS.has(mark.kind))
    .map((mark) => mark.elapsedUs / 1e6)
    .filter((atS) => atS > fromS && atS < toS)
    .sort((a, b) => a - b);
}

export function defineAttention(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  moments: { lit: FoundMoment | undefined; target: FoundMoment | undefined; fireOut: FoundMoment | undefined },
  model: Model,
): void {
  const { lit, target, fireOut } = moments;
  const names = ['longestUnattendedS', 'typicalUnattendedS'] as const;
  if (!lit || !fireOut) model.markMissing([...names, 'recoveryS'], missing(lit ? 'fireOutUnknown' : 'litUnknown'));
  else {
    defineUnattended(lit, fireOut);
    defineRecovery(lit.elapsedS);
  }

  function defineUnattended(lit: FoundMoment, fireOut: FoundMoment): void {
    const touches = attentionsS(record, lit.elapsedS, fireOut.elapsedS);
    if (touches.length === 0) {
      model.markMissing(names, missing('noAttention'));
      return;
    }
    const edges = [lit.elapsedS, ...touches, fireOut.elapsedS];
    const lapsed = lapseFinder();
    const spans = edges.slice(1).map((toS, index) => lapsed(edges[index]!, toS) - edges[index]!);
    const sorted = [...spans].sort((a, b) => a - b);
    const half = sorted.length / 2;
    const typicalS = Number.isInteger(half) ? (sorted[half - 1]! + sorted[half]!) / 2 : sorted[Math.floor(half)]!;
    const longestS = sorted.at(-1)!;
    model.remark('longestUnattendedS', remark('maximum'));
    const error = model.ownError('mark.attention', MARK_U_S * Math.SQRT2);
    model.define((draw, quantities) => {
      quantities.longestUnattendedS = Math.max(0, longestS + draw[error]!);
      quantities.typicalUnattendedS = Math.max(0, typicalS + draw[error]! / Math.sqrt(spans.length));
    });
  }

  /** First moment in a span at which the fire no longer did its job; the end of the span when it did to the last. */
  function lapseFinder(): (fromS: number, toS: number) => number {
    if (!water || !errors) return (_fromS, toS) => toS;
    const { rateKPerS, targetReadC, floorReadC } = jobOf(water, errors);
    return (fromS, toS) => {
      let since: number | undefined;
      for (let index = firstIndexAtOrAfter(water.timeS, fromS); index < water.timeS.length; index++) {
        const atS = water.timeS[index]!;
        if (atS > toS) break;
        if (isDone(index, atS)) since = undefined;
        else since ??= atS;
        if (since !== undefined && atS - since >= LAPSE_S) return since;
      }
      return toS;
    };

    function isDone(index: number, atS: number): boolean {
      const tempC = water!.tempC[index]!;
      if (Number.isNaN(tempC) || atS < lit!.elapsedS + LET_OFF_S) return true;
      if (target && atS >= target.elapsedS) return tempC >= floorReadC;
      return tempC > targetReadC - NEAR_TARGET_K || slowRate(index) >= RATE_SHARE * rateKPerS;
    }

    function slowRate(index: number): number {
      const atS = water!.timeS[index]!;
      const before = firstIndexAtOrAfter(water!.timeS, atS - RATE_HALF_WIDTH_S);
      const after = Math.min(water!.timeS.length - 1, firstIndexAtOrAfter(water!.timeS, atS + RATE_HALF_WIDTH_S));
      const rise = water!.tempC[after]! - water!.tempC[before]!;
      return Number.isNaN(rise) ? Number.POSITIVE_INFINITY : rise / (water!.timeS[after]! - water!.timeS[before]!);
    }
  }

  function jobOf(curve: WaterCurve, error: WaterErrors) {
    const best = model.evaluate(model.bestEstimate());
    const targetC = record.target.kind === 'boil' ? best.boilingTempC : record.target.tempC;
    const targetReadC = targetC + error.errorK(targetC);
    const floorReadC =
      record.target.kind === 'boil' ? targetReadC - HOLD_BELOW_BOIL_K : targetReadC - error.afterPlateauK;
    const endS = target?.elapsedS ?? curve.timeS.at(-1)!;
    const start = firstIndexAtOrAfter(curve.timeS, lit!.elapsedS);
    const end = Math.min(curve.timeS.length - 1, firstIndexAtOrAfter(curve.timeS, endS));
    const rateKPerS = Math.max(0, (curve.tempC[end]! - curve.tempC[start]!) / (endS - lit!.elapsedS) || 0);
    return { rateKPerS, targetReadC, floorReadC };
  }

  function defineRecovery(litS: number): void {
    if (!water) {
      model.markMissing('recoveryS', missing('noWaterTemperature'));
      return;
    }
    if (water.isHandRead && water.periodS > DIP_NEEDS_READING_EVERY_S) {
      model.markMissing('recoveryS', missing('readingsTooFarApart', { apartS: water.periodS }));
      return;
    }
    const endS = target?.elapsedS ?? fireOut!.elapsedS;
    const feedsS = record.marks
      .filter(({ kind }) => kind === 'fed')
      .map((mark) => mark.elapsedUs / 1e6)
      .filter((atS) => atS > litS + LET_OFF_S && atS < endS);
    if (feedsS.length === 0) {
      model.markMissing('recoveryS', missing('noFeedBeforeTarget'));
      return;
    }
    const { slope } = smooth(water.timeS, water.tempC, water.segments, RATE_HALF_WIDTH_S);
    const recoveries = feedsS
      .flatMap((feedS) => recoveryAfter(water.timeS, slope, feedS, endS) ?? [])
      .sort((a, b) => a - b);
    if (recoveries.length === 0) {
      model.markMissing('recoveryS', missing('feedsTooClose'));
      return;
    }
    const half = recoveries.length / 2;
    const recoveryS = Number.isInteger(half)
      ? (recoveries[half - 1]! + recoveries[half]!) / 2
      : recoveries[Math.floor(half)]!;
    if (recoveryS === 0) model.remark('recoveryS', remark('noDip'));
    const error = model.ownError(
      'mark.feed',
      Math.hypot(MARK_U_S, RATE_HALF_WIDTH_S / 3) / Math.sqrt(recoveries.length),
    );
    model.define((draw, quantities) => {
      quantities.recoveryS = Math.max(0, recoveryS + draw[error]!);
    });
  }
}

/** Time from a feed until the heating rate is back; 0 when it never fell; `undefined` when it was not back before the next end. */
function recoveryAfter(timeS: Float64Array, slope: Float64Array, feedS: number, endS: number): number | undefined {
  const before = slope[firstIndexAtOrAfter(timeS, feedS - RATE_HALF_WIDTH_S)];
  if (before === undefined || !(before > 0)) return undefined;
  let dipped = false;
  for (let index = firstIndexAtOrAfter(timeS, feedS); index < timeS.length; index++) {
    const atS = timeS[index]!;
    if (atS > endS) return undefined;
    if (slope[index]! < DIP_SHARE * before) dipped = true;
    else if (dipped && slope[index]! >= RETURNED_SHARE * before) return atS - feedS;
    if (!dipped && atS > feedS + DIP_WITHIN_S) return 0;
  }
  return undefined;
}

/** The hold of a finished burn: its window, the time counted, the time below the floor, the lowest temperature, whether it was kept. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { type FoundMoment, markedMoment, marksOf } from '../curves/fire-moments.ts';
import { createHoldCounter, HOLD_BELOW_BOIL_K } from '../curves/hold-counter.ts';
import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import { straightLines } from '../curves/straight-lines.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import type { WaterErrors } from './water-temperature.ts';

export interface Hold {
  readonly start: FoundMoment;
  readonly end: FoundMoment;
}

/** One-sided 95 % of a normal: the display is kept this many standard uncertainties above a set temperature. */
export const GUARD_U = 1.65;
const SHIFTS = 17;
const SHIFT_SPAN_U = 4;
const HOLD_NAMES = ['holdCountedS', 'holdBelowS', 'holdLowestC', 'holdWindowS', 'fuelInHoldKg'] as const;

export function defineHold(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  target: FoundMoment | undefined,
  fireOut: FoundMoment | undefined,
  model: Model,
): Hold | undefined {
  const [startMark] = marksOf(record, 'holdStart');
  const endMark = marksOf(record, 'holdEnd').at(-1);
  const start = startMark ? markedMoment(startMark, target?.elapsedS) : target;
  const whyNoTarget = model.missing.get('litToTargetS');
  // In a gap the moment is lost, not the batch.
  if (whyNoTarget && whyNoTarget.code !== 'crossingInGap') model.markMissing('batches', whyNoTarget);
  model.define((_draw, quantities) => {
    quantities.batches = 1;
  });
  if (!record.hold && !startMark && !endMark) {
    model.markMissing(HOLD_NAMES, missing('holdNotAsked'));
    return undefined;
  }
  if (!start) return missingHold(whyNoTarget ?? missing('holdNotReached'));
  if (!water || !errors) return missingHold(missing('noWaterTemperature'));
  const boiling = model.isKnown('boilingTempC');
  if (record.target.kind === 'boil' && !boiling) return missingHold(missing('boilingPointUnknown'));

  if (!record.hold) model.remark(['holdCountedS', 'holdBelowS'], remark('holdRuleAssumed'));
  const best = model.evaluate(model.bestEstimate());
  const trueFloorC = record.target.kind === 'boil' ? best.boilingTempC - HOLD_BELOW_BOIL_K : record.target.tempC;
  const floorC = trueFloorC + errors.errorK(trueFloorC);
  const neededS = record.hold?.durationS ?? Number.POSITIVE_INFINITY;
  const onDrop = record.hold?.onDrop ?? 'pause';
  const lastS = Math.min(fireOut?.elapsedS ?? Number.POSITIVE_INFINITY, water.timeS.at(-1)!);
  const pauses = pausesOf(record);
  const isPaused =
    pauses.length > 0 ? (atS: number) => pauses.some(({ fromS, toS }) => atS >= fromS && atS < toS) : () => false;
  const { timeS, tempC } = water.isHandRead ? straightLines(water) : water;
  const run = (readFloorC: number, untilS: number, full: number) => {
    const counter = createHoldCounter({ floorC: readFloorC, neededS: full, onDrop }, start.elapsedS, water.bridgeS);
    for (let index = firstIndexAtOrAfter(timeS, start.elapsedS); index < timeS.length; index++) {
      const atS = timeS[index]!;
      if (atS > untilS) break;
      counter.see(atS, tempC[index]!, isPaused(atS));
    }
    return counter;
  };

  const detectedEndS = run(floorC, lastS, neededS).doneS ?? lastS;
  const end: FoundMoment = endMark
    ? markedMoment(endMark, detectedEndS)
    : {
        elapsedS: detectedEndS,
        standardUncertaintyS: start.standardUncertaintyS,
        source: 'detected',
        uncertaintyStated: true,
      };
  if (end.elapsedS <= start.elapsedS) return missingHold(missing('windowEmpty'));
  defineCounts(run, water, errors, floorC, start, end, model);
  if (record.hold) classify();
  return { start, end };

  function missingHold(why: ReturnType<typeof missing>): undefined {
    model.markMissing(HOLD_NAMES, why);
    if (record.hold) model.markMissing('batches', why);
    return undefined;
  }

  /** Kept for certain, kept within what the probes can tell, or not kept. */
  function classify(): void {
    const guardK = record.target.kind === 'boil' ? 0 : GUARD_U * errors!.afterPlateauK;
    const toleranceS = 2 * Math.hypot(start!.standardUncertaintyS, end.standardUncertaintyS) + 2 * water!.periodS;
    const selected = (readFloorC: number) => run(readFloorC, end.elapsedS, neededS).countedS >= neededS - toleranceS;
    if (selected(floorC + guardK)) return;
    const marginK = Math.max(guardK, GUARD_U * errors!.afterPlateauK);
    if (selected(floorC - marginK)) {
      model.remark('batches', remark('holdNotProven', { marginK }));
      return;
    }
    const { countedS } = run(floorC, end.elapsedS, neededS);
    model.markMissing('batches', missing('holdNotKept', { countedS, neededS }));
  }
}

interface Pause {
  readonly fromS: number;
  readonly toS: number;
}

/** Pot off the fire until it is back; goods put in, for the minutes they take to warm. */
function pausesOf(record: BurnRecord): Pause[] {
  const onS = marksOf(record, 'potOn').map((mark) => mark.elapsedUs / 1e6);
  return marksOf(record, 'potOff').map((mark) => {
    const fromS = mark.elapsedUs / 1e6;
    return { fromS, toS: onS.find((atS) => atS > fromS) ?? Number.POSITIVE_INFINITY };
  });
}

/** Counted time and time below the floor depend on where the true temperature lies: a table over shifts of the reading. */
function defineCounts(
  run: (readFloorC: number, untilS: number, full: number) => { countedS: number; belowS: number },
  water: WaterCurve,
  errors: WaterErrors,
  floorC: number,
  start: FoundMoment,
  end: FoundMoment,
  model: Model,
): void {
  const spanK = Math.max(0.2, SHIFT_SPAN_U * errors.afterPlateauK);
  const stepK = (2 * spanK) / (SHIFTS - 1);
  const counted = new Float64Array(SHIFTS);
  const below = new Float64Array(SHIFTS);
  for (let shift = 0; shift < SHIFTS; shift++) {
    const counter = run(floorC - spanK + shift * stepK, end.elapsedS, Number.POSITIVE_INFINITY);
    counted[shift] = counter.countedS;
    below[shift] = counter.belowS;
  }
  const lowestReadC = lowestBetween(water, start.elapsedS, end.elapsedS);
  if (Number.isNaN(lowestReadC)) {
    model.markMissing(HOLD_NAMES, missing('noWaterTemperature'));
    return;
  }
  const best = model.evaluate(model.bestEstimate());
  const bestErrorK = best.waterOffsetK + best.waterGain * floorC;
  const bestBoilingC = best.boilingTempC;
  const windowS = end.elapsedS - start.elapsedS;
  const edges = model.ownError('hold.edges', Math.hypot(start.standardUncertaintyS, end.standardUncertaintyS));
  // The lowest temperature often stands at an edge of the hold, and moves with it.
  const wider = lowestBetween(
    water,
    start.elapsedS - start.standardUncertaintyS,
    end.elapsedS + end.standardUncertaintyS,
  );
  const narrower = lowestBetween(
    water,
    start.elapsedS + start.standardUncertaintyS,
    end.elapsedS - end.standardUncertaintyS,
  );
  const lowestError = model.ownError('hold.lowest', Math.max(water.noiseK, 0.01, (narrower - wider) / 2 || 0));
  model.define((draw, quantities) => {
    // The floor moves with the boiling point when the hold is at the boil, and with the probes always.
    const boilK = Number.isNaN(bestBoilingC) ? 0 : quantities.boilingTempC - bestBoilingC;
    const shiftK = quantities.waterOffsetK + quantities.waterGain * floorC - bestErrorK + boilK;
    const position = Math.min(SHIFTS - 1.000001, Math.max(0, (shiftK + spanK) / stepK));
    const index = Math.floor(position);
    const share = position - index;
    quantities.holdCountedS = Math.max(
      0,
      counted[index]! + share * (counted[index + 1]! - counted[index]!) + draw[edges]!,
    );
    quantities.holdBelowS = below[index]! + share * (below[index + 1]! - below[index]!);
    quantities.holdLowestC =
      lowestReadC - quantities.waterOffsetK - quantities.waterGain * lowestReadC + draw[lowestError]!;
    quantities.holdWindowS = windowS + draw[edges]!;
  });
}

function lowestBetween({ timeS, tempC }: WaterCurve, fromS: number, toS: number): number {
  let lowest = Number.NaN;
  for (let index = firstIndexAtOrAfter(timeS, fromS); index < timeS.length && timeS[index]! <= toS; index++) {
    if (!(tempC[index]! >= lowest)) lowest = Number.isNaN(tempC[index]!) ? lowest : tempC[index]!;
  }
  return lowest;
}

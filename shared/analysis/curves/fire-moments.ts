/** Finds the moments lit, pot on and fire out from the person's marks and from the curves. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Mark, MarkKind } from '../../contract/marks.ts';
import { median } from '../../statistics/quantile.ts';
import type { Curve } from './channel-curve.ts';
import { bridgeOf, segmentsOf } from './segments.ts';
import { smooth } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

export interface FoundMoment {
  readonly elapsedS: number;
  readonly standardUncertaintyS: number;
  readonly source: 'person' | 'detected';
  /** The mark, when a person entered the moment. */
  readonly markId?: string;
  readonly uncertaintyStated: boolean;
  readonly detectedElapsedS?: number;
}

/** Standard uncertainty, s, of a mark made by a person who is busy with a fire. */
const MARK_U_S = 20;
const DETECTED_LIT_U_S = 60;
const DETECTED_FIRE_OUT_U_S = 120;
const LIT_RISE_K = 15;
const WATER_RISES_K_PER_S = 0.15 / 60;
const FIRE_OUT_SHARE = 0.35;
const FALLS_FOR_S = 120;

const seconds = (mark: Mark) => mark.elapsedUs / 1e6;

/** Returns the first mark of a kind as a moment. */
export function markedMoment(mark: Mark, detectedElapsedS?: number): FoundMoment {
  return {
    elapsedS: seconds(mark),
    standardUncertaintyS: mark.standardUncertaintyS ?? MARK_U_S,
    source: mark.source ?? 'person',
    markId: mark.id,
    uncertaintyStated: mark.standardUncertaintyS !== undefined,
    ...(detectedElapsedS === undefined ? {} : { detectedElapsedS }),
  };
}

export function marksOf<K extends MarkKind>(record: BurnRecord, kind: K): Extract<Mark, { kind: K }>[] {
  return record.marks
    .filter((mark): mark is Extract<Mark, { kind: K }> => mark.kind === kind)
    .sort((a, b) => a.elapsedUs - b.elapsedUs);
}

/** Returns the mark of putting the pot on the fire for the first time, as opposed to putting it back. */
export function firstPotOn(record: BurnRecord): Extract<Mark, { kind: 'potOn' }> | undefined {
  const [on] = marksOf(record, 'potOn');
  const [off] = marksOf(record, 'potOff');
  return on && off && off.elapsedUs < on.elapsedUs ? undefined : on;
}

export function litMoment(
  record: BurnRecord,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
): FoundMoment | undefined {
  const detected = detectLit(curves, water);
  const [mark] = marksOf(record, 'lit');
  if (mark) return markedMoment(mark, detected);
  return detected === undefined ? undefined : detectedMoment(detected, DETECTED_LIT_U_S);
}

export function fireOutMoment(
  record: BurnRecord,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  litS: number,
): FoundMoment | undefined {
  const detected = detectFireOut(curves, water, litS);
  const mark = marksOf(record, 'fireOut').at(-1);
  if (mark) return markedMoment(mark, detected);
  return detected === undefined ? undefined : detectedMoment(detected, DETECTED_FIRE_OUT_U_S);
}

function detectedMoment(elapsedS: number, standardUncertaintyS: number): FoundMoment {
  return { elapsedS, standardUncertaintyS, source: 'detected', uncertaintyStated: true };
}

/** Returns the channel that responds to the fire first: riser, flue, else the air gap. */
function fireCurve(curves: readonly Curve[]): Curve | undefined {
  return (['riser', 'flue', 'airGap'] as const)
    .map((role) => curves.find((curve) => curve.channel.role === role))
    .find((curve) => curve !== undefined);
}

/** Finds when the hot gas leaves its starting level, or the water where no probe is in the gas. */
function detectLit(curves: readonly Curve[], water: WaterCurve | undefined): number | undefined {
  const fire = fireCurve(curves);
  if (fire) {
    const startC = firstUsable(fire.value);
    const index = fire.value.findIndex((value) => value > startC + LIT_RISE_K);
    if (index > 0) return fire.timeS[index]!;
  }
  if (!water) return undefined;
  const index = water.rateKPerS.findIndex((rate, at) => rate > WATER_RISES_K_PER_S && staysRising(water, at));
  return index > 0 ? water.timeS[index]! : undefined;
}

function staysRising({ timeS, rateKPerS }: WaterCurve, from: number): boolean {
  for (let index = from; index < timeS.length && timeS[index]! < timeS[from]! + 300; index++) {
    if (rateKPerS[index]! < WATER_RISES_K_PER_S / 2) return false;
  }
  return true;
}

/**
 * Finds when the hot gas was last at a third of its usual excess, or, without such a probe, when the water last stopped
 * rising or resting.
 */
function detectFireOut(curves: readonly Curve[], water: WaterCurve | undefined, litS: number): number | undefined {
  const fire = fireCurve(curves);
  if (fire) {
    const segments = segmentsOf(fire.timeS, fire.value, bridgeOf(fire));
    const { level } = smooth(fire.timeS, fire.value, segments, 30);
    const burning = usableAfter(fire.timeS, level, litS);
    const lowC = firstUsable(fire.value);
    const usualC = burning.length > 0 ? median(burning) : lowC;
    if (usualC < lowC + 2 * LIT_RISE_K) return undefined;
    const lastC = lowC + FIRE_OUT_SHARE * (usualC - lowC);
    let last = level.length - 1;
    while (last >= 0 && !(level[last]! > lastC)) last--;
    return last >= 0 && last < level.length - 1 ? fire.timeS[last]! : undefined;
  }
  if (!water) return undefined;
  const last = water.rateKPerS.findLastIndex((rate) => rate > -WATER_RISES_K_PER_S);
  const fellAfterwards = last >= 0 && water.timeS.at(-1)! - water.timeS[last]! > FALLS_FOR_S;
  return fellAfterwards && water.timeS[last]! > litS ? water.timeS[last]! : undefined;
}

function usableAfter(timeS: Float64Array, value: Float64Array, afterS: number): Float64Array {
  const usable = new Float64Array(value.length);
  let count = 0;
  for (let index = 0; index < value.length; index++) {
    if (timeS[index]! > afterS && !Number.isNaN(value[index]!)) usable[count++] = value[index]!;
  }
  return usable.subarray(0, count);
}

function firstUsable(value: Float64Array): number {
  return value.find((reading) => !Number.isNaN(reading)) ?? Number.NaN;
}

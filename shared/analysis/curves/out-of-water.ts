/**
 * Finds water probes that no longer measure the water: hotter than water can be, falling or rising faster than a pot
 * can, or far from the other probes and as noisy as only air is. Works on probes of one board's time base or of
 * several.
 */

import type { BurnRecord } from '../../contract/burn-record.ts';
import { kindsWith } from '../../contract/mark-kinds.ts';
import type { MarkKind } from '../../contract/marks.ts';
import { median } from '../../statistics/quantile.ts';
import { firstPotOn } from './fire-moments.ts';
import type { FlaggedCurve } from './flags.ts';
import { equalRuns } from './quality.ts';
import { bridgeOf, scanPeriodS, segmentsOf } from './segments.ts';
import { firstIndexAtOrAfter, type SmoothCurve, smooth, valueAt } from './smoothing.ts';

/**
 * Excess over the boiling point, K, that neither superheated water nor the error of a probe reaches (bench-1
 * definition: T_b + 1.5 K).
 */
export const ABOVE_BOIL_K = 1.5;
/** Where the place is unknown: sea level at the highest air pressure recorded, 108 kPa. */
const HIGHEST_BOIL_C = 101.8;
const HALF_WIDTH_S = 15;
/** A fall of this much within a minute needs a marked cause. */
const DROP_K = 3;
const DROP_WITHIN_S = 60;
/** A rise beyond this needs more power than a stove gives a pot: 20 kW into 20 kg of water is 14 K/min. */
const RISE_K_PER_S = 15 / 60;
const RISE_K = 3;
const CAUSE_WITHIN_S = 180;
const CAUSES: ReadonlySet<MarkKind> = new Set(kindsWith('disturbsWater', true));
/** Difference from the other probes, K, and its duration, at which a noisy probe counts as out of the water. */
const PARTED_K = 6;
const PARTED_FOR_S = 180;
const PARTED_SURELY_K = 20;
const RESTLESS_TIMES = 3;
/** No probe in water is steadier than this, K/s from one half minute to the next. */
const CALMEST_K_PER_S = 0.001;
/** The usual differences of probes are taken this long before and after the pot is set up. */
const USUAL_WITHIN_S = 300;
const AGREES_K = 2;
const STUCK_WHILE_OTHERS_MOVE_K = 2;

export interface WaterProbe {
  readonly flagged: FlaggedCurve;
  /** Standard uncertainty of its offset, K. */
  readonly offsetK: number;
}

export function flagOutOfWater(
  record: BurnRecord,
  probes: readonly WaterProbe[],
  boilingTempC: number | undefined,
): void {
  // Before lighting, probes and pot are being set up and readings may jump.
  const riggedS = Math.max(
    ...[record.marks.find(({ kind }) => kind === 'lit'), firstPotOn(record)].map(
      (mark) => (mark?.elapsedUs ?? Number.NEGATIVE_INFINITY) / 1e6,
    ),
  );
  const causesS = record.marks.filter((mark) => CAUSES.has(mark.kind)).map((mark) => mark.elapsedUs / 1e6);
  for (const { flagged, offsetK } of probes) {
    const { value } = flagged.curve;
    const limitC = (boilingTempC ?? HIGHEST_BOIL_C) + ABOVE_BOIL_K + 2 * offsetK;
    for (let index = 0; index < value.length; index++) if (value[index]! > limitC) flagged.flag(index, 'outOfWater');
  }
  const before = probes.map(({ flagged }) => smoothed(flagged));
  const after = probes.map(({ flagged }, own) => {
    const others = before.filter((_, at) => at !== own);
    const moving = flagStuckWhileOthersMove(flagged, others) ? smoothed(flagged) : before[own]!;
    return flagJumps(flagged, moving, others, causesS, riggedS) ? smoothed(flagged) : moving;
  });
  probes.forEach(({ flagged }, own) => {
    flagParted(
      flagged,
      after[own]!,
      after.filter((_, at) => at !== own),
      riggedS,
    );
  });
}

function smoothed({ curve }: FlaggedCurve): SmoothCurve & { bridgeS: number } {
  const bridgeS = bridgeOf(curve);
  const segments = segmentsOf(curve.timeS, curve.value, bridgeS);
  return { ...smooth(curve.timeS, curve.value, segments, HALF_WIDTH_S), bridgeS };
}

type Smoothed = ReturnType<typeof smoothed>;

/** Returns the level of a curve at one of the moments of a time base, which usually is its own. */
function levelAt(curve: Smoothed, timeS: Float64Array, index: number): number {
  const level = curve.timeS === timeS ? curve.level[index]! : Number.NaN;
  return Number.isNaN(level) ? valueAt(curve.timeS, curve.level, timeS[index]!, curve.bridgeS) : level;
}

/** Returns the mean of the others at a moment; NaN when none of them has a reading there. */
function meanOfOthers(others: readonly Smoothed[], timeS: Float64Array, index: number): number {
  let count = 0;
  let sum = 0;
  for (const other of others) {
    const level = levelAt(other, timeS, index);
    if (Number.isNaN(level)) continue;
    count += 1;
    sum += level;
  }
  return sum / count;
}

/** @returns whether anything was flagged */
function flagStuckWhileOthersMove(flagged: FlaggedCurve, others: readonly Smoothed[]): boolean {
  const { timeS, value } = flagged.curve;
  let isFlagged = false;
  for (const [from, to] of equalRuns(value, 30)) {
    const moved = meanOfOthers(others, timeS, to - 1) - meanOfOthers(others, timeS, from);
    if (!(Math.abs(moved) >= STUCK_WHILE_OTHERS_MOVE_K)) continue;
    for (let index = from; index < to; index++) flagged.flag(index, 'stuck');
    isFlagged = true;
  }
  return isFlagged;
}

/**
 * Flags a sudden fall or rise that no mark explains and the other probes do not show, until the probe has returned.
 * @returns whether anything was flagged
 */
function flagJumps(
  flagged: FlaggedCurve,
  curve: Smoothed,
  others: readonly Smoothed[],
  causesS: readonly number[],
  riggedS: number,
): boolean {
  const { timeS, level, slope } = curve;
  if (scanPeriodS(timeS) > HALF_WIDTH_S) return false;
  let isFlagged = false;
  const from = firstIndexAtOrAfter(timeS, riggedS + DROP_WITHIN_S);
  let earlier = from;
  for (let index = from; index < timeS.length; index++) {
    const here = level[index]!;
    if (Number.isNaN(here)) continue;
    while (timeS[index]! - timeS[earlier]! > DROP_WITHIN_S || Number.isNaN(level[earlier]!)) earlier++;
    const fell = here - level[earlier]! < -DROP_K;
    const rose = slope[index]! > RISE_K_PER_S && here - level[earlier]! > RISE_K;
    if (!fell && !rose) continue;
    const atS = timeS[index]!;
    if (causesS.some((causeS) => atS >= causeS - 30 && atS <= causeS + CAUSE_WITHIN_S)) continue;
    const othersMoved = meanOfOthers(others, timeS, index) - meanOfOthers(others, timeS, earlier);
    if (others.length > 0 && othersMoved * (here - level[earlier]!) > 0 && Math.abs(othersMoved) > DROP_K / 2) continue;
    const back = returnIndex(curve, earlier, index, others);
    for (let at = earlier; at < back; at++) flagged.flag(at, 'outOfWater');
    isFlagged = true;
    index = back;
    earlier = back;
  }
  return isFlagged;
}

/**
 * Returns the first index after a jump at which the probe agrees again with the others, or with its own level before.
 */
function returnIndex(curve: Smoothed, before: number, jump: number, others: readonly Smoothed[]): number {
  const { timeS, level } = curve;
  const beforeC = level[before]!;
  const usualK = beforeC - meanOfOthers(others, timeS, before);
  for (let index = jump + 1; index < timeS.length; index++) {
    const othersC = meanOfOthers(others, timeS, index);
    const expectedC = Number.isNaN(othersC + usualK) ? beforeC : othersC + usualK;
    const isFlat = Math.abs(curve.slope[index]!) < RISE_K_PER_S / 3;
    if (isFlat && Math.abs(level[index]! - expectedC) < AGREES_K) return index;
    // The only probe, and above its earlier level: the water continued to warm while the probe was out.
    if (others.length === 0 && isFlat && level[index]! > beforeC && level[jump]! < beforeC) return index;
  }
  return timeS.length;
}

/** Flags readings far from the others and noisy: of two probes that disagree, the steadier one is in the water. */
function flagParted(flagged: FlaggedCurve, curve: Smoothed, others: readonly Smoothed[], riggedS: number): void {
  if (others.length === 0) return;
  const { timeS, level } = curve;
  const [other] = others;
  const otherLevel = others.length === 1 && other!.timeS === timeS ? other!.level : undefined;
  const differenceK = new Float64Array(timeS.length);
  for (let index = 0; index < timeS.length; index++) {
    const otherC = otherLevel ? otherLevel[index]! : Number.NaN;
    // Two probes of one board are the usual case; where the other has no reading, it is interpolated.
    differenceK[index] = level[index]! - (Number.isNaN(otherC) ? meanOfOthers(others, timeS, index) : otherC);
  }
  const usual = [riggedS - USUAL_WITHIN_S, riggedS + USUAL_WITHIN_S].map((atS) => firstIndexAtOrAfter(timeS, atS));
  const usualK = medianOf(differenceK.subarray(usual[0], usual[1]));
  let from = -1;
  for (let index = 0; index <= timeS.length; index++) {
    const parted = index < timeS.length && Math.abs(differenceK[index]! - usualK) > PARTED_K;
    if (parted && from < 0) from = index;
    if (parted || from < 0) continue;
    const lastedS = timeS[index - 1]! - timeS[from]!;
    if (lastedS >= PARTED_FOR_S && isTheWrongOne(curve, others, differenceK, usualK, from, index)) {
      let start = from;
      while (start > 0 && !(Math.abs(differenceK[start - 1]! - usualK) < AGREES_K / 2)) start--;
      let end = index;
      while (end < timeS.length && Math.abs(differenceK[end]! - usualK) > AGREES_K) end++;
      for (let at = start; at < end; at++) flagged.flag(at, 'outOfWater');
    }
    from = -1;
  }
}

function isTheWrongOne(
  curve: Smoothed,
  others: readonly Smoothed[],
  differenceK: Float64Array,
  usualK: number,
  from: number,
  to: number,
): boolean {
  const own = restlessness(curve, curve.timeS[from]!, curve.timeS[to - 1]!);
  const calmest = Math.min(...others.map((other) => restlessness(other, curve.timeS[from]!, curve.timeS[to - 1]!)));
  let farthestK = 0;
  for (let index = from; index < to; index++)
    farthestK = Math.max(farthestK, Math.abs(differenceK[index]! - usualK) || 0);
  return own > RESTLESS_TIMES * calmest || (farthestK > PARTED_SURELY_K && own > calmest);
}

/** Returns the scatter of the slope from one half minute to the next, K/s. */
function restlessness({ timeS, slope }: Smoothed, fromS: number, toS: number): number {
  let count = 0;
  let squares = 0;
  let lastS = Number.NEGATIVE_INFINITY;
  let last = Number.NaN;
  for (let index = 0; index < timeS.length; index++) {
    if (timeS[index]! < fromS || timeS[index]! > toS || timeS[index]! - lastS < 2 * HALF_WIDTH_S) continue;
    const change = slope[index]! - last;
    if (!Number.isNaN(change)) {
      count += 1;
      squares += change * change;
    }
    last = slope[index]!;
    lastS = timeS[index]!;
  }
  return count > 0 ? Math.max(CALMEST_K_PER_S, Math.sqrt(squares / count)) : Number.POSITIVE_INFINITY;
}

function medianOf(values: Float64Array): number {
  const usable = values.filter((value) => !Number.isNaN(value));
  return usable.length > 0 ? median(usable) : 0;
}

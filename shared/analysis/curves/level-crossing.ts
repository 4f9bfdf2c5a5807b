/**
 * When the water reaches a level for good, for a whole range of levels at once: the first moment at or above the level after which
 * it stays within half a kelvin of it for a minute. With the boil's level at T_b − 0.5 K this is the boil rule (reaches T_b − 0.5 K
 * and stays above T_b − 1 K for 60 s). A higher level is never reached earlier, so one pass finds them all.
 */
import { STAY_S, STAY_WITHIN_K } from './boil-rule.ts';
import { firstIndexAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

export interface CrossingTable {
  readonly lowC: number;
  readonly stepK: number;
  /** Seconds since recording started, one entry a level; NaN for a level that is never reached. */
  readonly timeS: Float64Array;
}

/** Moments for the levels from `lowC` to `highC`, looked for between two moments. */
export function crossingTable(
  water: Pick<WaterCurve, 'timeS' | 'tempC' | 'periodS'>,
  fromS: number,
  toS: number,
  lowC: number,
  highC: number,
  stepK: number,
): CrossingTable {
  const { timeS, tempC, periodS } = water;
  const levels = Math.max(2, Math.ceil((highC - lowC) / stepK) + 1);
  const moments = new Float64Array(levels).fill(Number.NaN);
  let index = firstIndexAtOrAfter(timeS, fromS);
  for (let level = 0; level < levels; level++) {
    const wantedC = lowC + level * stepK;
    for (;;) {
      while (index < timeS.length && !(tempC[index]! >= wantedC)) index++;
      if (index >= timeS.length || timeS[index]! > toS) return { lowC, stepK, timeS: moments };
      const fallsAt = fallIndex(index, wantedC);
      if (fallsAt < 0) break;
      index = fallsAt;
    }
    if (timeS.at(-1)! < timeS[index]! + STAY_S - periodS) return { lowC, stepK, timeS: moments };
    moments[level] = Math.max(fromS, crossing(index, wantedC));
  }
  return { lowC, stepK, timeS: moments };

  /** First place within the minute at which the level is lost again; −1 when it is kept. */
  function fallIndex(reached: number, wantedC: number): number {
    for (let at = reached + 1; at < timeS.length && timeS[at]! <= timeS[reached]! + STAY_S; at++) {
      if (tempC[at]! <= wantedC - STAY_WITHIN_K) return at;
    }
    return -1;
  }

  function crossing(reached: number, wantedC: number): number {
    let before = reached - 1;
    while (before >= 0 && Number.isNaN(tempC[before]!)) before--;
    if (before < 0 || tempC[before]! >= wantedC) return timeS[reached]!;
    const share = (wantedC - tempC[before]!) / (tempC[reached]! - tempC[before]!);
    return timeS[before]! + share * (timeS[reached]! - timeS[before]!);
  }
}

/** Moment for one level, linear between the table's levels, held at its ends; a level never reached takes the last one that was. */
export function momentOf({ lowC, stepK, timeS }: CrossingTable, levelC: number): number {
  const position = (levelC - lowC) / stepK;
  const index = Math.min(timeS.length - 2, Math.max(0, Math.floor(position)));
  const low = timeS[index]!;
  const high = timeS[index + 1]!;
  if (Number.isNaN(high)) return lastReached(timeS, index);
  return low + Math.min(1, Math.max(0, position - index)) * (high - low);
}

function lastReached(timeS: Float64Array, from: number): number {
  for (let index = from; index >= 0; index--) if (!Number.isNaN(timeS[index]!)) return timeS[index]!;
  return Number.NaN;
}

/** Whether a level is reached at all. */
export function isReached({ lowC, stepK, timeS }: CrossingTable, levelC: number): boolean {
  const index = Math.min(timeS.length - 1, Math.max(0, Math.ceil((levelC - lowC) / stepK)));
  return !Number.isNaN(timeS[index]!);
}

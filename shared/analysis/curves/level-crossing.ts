/**
 * Finds when the water reaches a level for good, for a range of levels at once: the first moment at or above the level
 * after which it stays within half a kelvin of it for a minute. With the boil's level at T_b − 0.5 K this is the boil
 * rule (reaches T_b − 0.5 K and stays above T_b − 1 K for 60 s). A higher level is never reached earlier, so one pass
 * finds them all.
 *
 * Between the last reading below and the first above there is no reading. The level may have been passed wherever a
 * rate slightly above the fastest nearby, or slightly below the slowest, can connect the two readings; the moment is
 * the middle of that stretch.
 */
import { STAY_S, STAY_WITHIN_K } from './boil-rule.ts';
import { firstIndexAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

/**
 * Between readings up to a minute apart the water warms at most at this multiple of the fastest rate nearby, and at
 * least at the slowest divided by it. In longer pauses a fire changes more; beyond four minutes the rate is unknown
 * ("common practice, no source").
 */
const RATE_FACTOR = 1.5;
const RATE_LASTS_S = { from: 60, to: 240 };
/** Rates before and after are taken over as much time as between the two readings, and at least over this. */
const RATE_OVER_S = 20;

export interface CrossingTable {
  readonly lowC: number;
  readonly stepK: number;
  /** Seconds since recording started, one entry per level; NaN for a level that is never reached. */
  readonly timeS: Float64Array;
  /** How far before or after the level may have been passed, s. */
  readonly halfWidthS: Float64Array;
}

/** Returns the moments of the levels from `lowC` to `highC`, searched between two moments. */
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
  const halfWidths = new Float64Array(levels);
  const table: CrossingTable = { lowC, stepK, timeS: moments, halfWidthS: halfWidths };
  let index = firstIndexAtOrAfter(timeS, fromS);
  for (let level = 0; level < levels; level++) {
    const wantedC = lowC + level * stepK;
    for (;;) {
      while (index < timeS.length && !(tempC[index]! >= wantedC)) index++;
      if (index >= timeS.length || timeS[index]! > toS) return table;
      const fallsAt = fallIndex(index, wantedC);
      if (fallsAt < 0) break;
      index = fallsAt;
    }
    if (timeS.at(-1)! < timeS[index]! + STAY_S - periodS) return table;
    const passed = stretchOfPassing(water, index, wantedC);
    const earliestS = Math.max(fromS, passed.earliestS);
    const latestS = Math.max(fromS, passed.latestS);
    moments[level] = (earliestS + latestS) / 2;
    halfWidths[level] = (latestS - earliestS) / 2;
  }
  return table;

  /** Returns the first index within the minute at which the water falls below the level again; −1 when it stays. */
  function fallIndex(reached: number, wantedC: number): number {
    for (let at = reached + 1; at < timeS.length && timeS[at]! <= timeS[reached]! + STAY_S; at++) {
      if (tempC[at]! <= wantedC - STAY_WITHIN_K) return at;
    }
    return -1;
  }
}

/** Returns the moments between which a level was passed, for the first reading that reaches it. */
function stretchOfPassing(
  { timeS, tempC }: Pick<WaterCurve, 'timeS' | 'tempC'>,
  reached: number,
  wantedC: number,
): { earliestS: number; latestS: number } {
  const before = usableFrom(tempC, reached - 1, -1);
  const [atS, aboveC] = [timeS[reached]!, tempC[reached]!];
  if (before < 0 || tempC[before]! >= wantedC) return { earliestS: atS, latestS: atS };
  const [beforeS, belowC] = [timeS[before]!, tempC[before]!];
  const overS = Math.max(RATE_OVER_S, atS - beforeS);
  const rates = [
    (aboveC - belowC) / (atS - beforeS),
    rateTowards({ timeS, tempC }, before, -1, overS),
    rateTowards({ timeS, tempC }, reached, 1, overS),
  ];
  // Without a rate on one side, that side has no bound.
  const { from, to } = RATE_LASTS_S;
  const lasting = Math.min(1, (to - (atS - beforeS)) / (to - from));
  const isKnown = lasting > 0 && rates.every((rate) => !Number.isNaN(rate));
  const factor = RATE_FACTOR / lasting;
  const fastest = isKnown ? factor * Math.max(...rates) : Number.POSITIVE_INFINITY;
  const slowest = isKnown ? Math.max(0, Math.min(...rates) / factor) : 0;
  const [stillK, pastK] = [wantedC - belowC, aboveC - wantedC];
  return {
    earliestS: Math.max(beforeS, beforeS + stillK / fastest, slowest > 0 ? atS - pastK / slowest : beforeS),
    latestS: Math.min(atS, atS - pastK / fastest, slowest > 0 ? beforeS + stillK / slowest : atS),
  };
}

/**
 * Returns the rate from a reading to the one at least `overS` away in a direction; NaN where there is none within twice
 * that.
 */
function rateTowards(
  { timeS, tempC }: Pick<WaterCurve, 'timeS' | 'tempC'>,
  from: number,
  direction: 1 | -1,
  overS: number,
): number {
  let at = from;
  while (Math.abs((timeS[at] ?? Number.NaN) - timeS[from]!) < 0.99 * overS)
    at = usableFrom(tempC, at + direction, direction);
  const apartS = (timeS[at] ?? Number.NaN) - timeS[from]!;
  return Math.abs(apartS) <= 2 * overS ? (tempC[at]! - tempC[from]!) / apartS : Number.NaN;
}

/**
 * Returns the time from the last reading before a moment to the first at or after it, s; 0 where there is none on one
 * side.
 */
export function pauseAroundS({ timeS, tempC }: Pick<WaterCurve, 'timeS' | 'tempC'>, atS: number): number {
  const at = firstIndexAtOrAfter(timeS, atS);
  const pauseS = timeS[usableFrom(tempC, at, 1)]! - timeS[usableFrom(tempC, at - 1, -1)]!;
  return Number.isNaN(pauseS) ? 0 : pauseS;
}

/** Returns the index of the next usable reading in a direction; outside the curve where there is none. */
function usableFrom(tempC: Float64Array, from: number, direction: 1 | -1): number {
  let at = from;
  while (at >= 0 && at < tempC.length && Number.isNaN(tempC[at]!)) at += direction;
  return at;
}

/**
 * Returns the moment of one level, linear between the table's levels and constant beyond its ends; a level never
 * reached has the moment of the last one reached.
 */
export function momentOf(table: CrossingTable, levelC: number): number {
  return entryAt(table, table.timeS, positionOf(table, levelC));
}

/**
 * Returns how far before or after that moment the level may have been passed, s; for a level never reached, that of the
 * last one reached.
 */
export function halfWidthOf(table: CrossingTable, levelC: number): number {
  return entryAt(table, table.halfWidthS, positionOf(table, levelC));
}

function positionOf({ lowC, stepK }: CrossingTable, levelC: number): number {
  return (levelC - lowC) / stepK;
}

function entryAt({ timeS }: CrossingTable, entries: Float64Array, position: number): number {
  const index = Math.min(timeS.length - 2, Math.max(0, Math.floor(position)));
  if (Number.isNaN(timeS[index + 1]!)) {
    let last = index;
    while (last > 0 && Number.isNaN(timeS[last]!)) last--;
    return entries[last]!;
  }
  const low = entries[index]!;
  return low + Math.min(1, Math.max(0, position - index)) * (entries[index + 1]! - low);
}

/**
 * Returns the moment at which the true level with the reading `levelC` was passed, when noise and layers shift the
 * reading by `ownK`. They shift the moment by `ownS` along the slope of the curve, since a look-up would leave the
 * curve near a plateau, but never beyond the neighbouring readings.
 * @param across position between the two readings, -1 to 1
 */
export function passedS(table: CrossingTable, levelC: number, ownK: number, ownS: number, across: number): number {
  const { timeS, halfWidthS } = table;
  const position = positionOf(table, levelC);
  const ownPosition = positionOf(table, levelC + ownK);
  const passS = entryAt(table, timeS, position);
  const halfS = entryAt(table, halfWidthS, position);
  const ownPassS = entryAt(table, timeS, ownPosition);
  const ownHalfS = entryAt(table, halfWidthS, ownPosition);
  const momentS = passS + ownS + across * halfS;
  const [earliestS, latestS, latest] =
    ownK < 0 ? [ownPassS - ownHalfS, passS + halfS, position] : [passS - halfS, ownPassS + ownHalfS, ownPosition];
  return isReachedAt(table, latest) ? Math.min(latestS, Math.max(earliestS, momentS)) : Math.max(earliestS, momentS);
}

/** Returns whether a level is reached. */
export function isReached(table: CrossingTable, levelC: number): boolean {
  return isReachedAt(table, positionOf(table, levelC));
}

function isReachedAt({ timeS }: CrossingTable, position: number): boolean {
  const index = Math.min(timeS.length - 1, Math.max(0, Math.ceil(position)));
  return !Number.isNaN(timeS[index]!);
}

/** Returns the highest level of a table that is reached; `undefined` when none is. */
export function highestReachedC({ lowC, stepK, timeS }: CrossingTable): number | undefined {
  const last = timeS.findLastIndex((moment) => !Number.isNaN(moment));
  return last < 0 ? undefined : lowC + last * stepK;
}

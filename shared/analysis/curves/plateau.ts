/**
 * Finds the level at which the water stops rising, and whether it can be the boil. An open pot with little power may
 * stall well below the boil; such a level rises with feeding and drifts. A boil is a ceiling: the water may fall from
 * it when the fire is low, but returns to the same level and stays there.
 */
import { median, quantiles } from '../../statistics/quantile.ts';
import { firstIndexAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

export interface Plateau {
  /** As read, °C. */
  readonly levelC: number;
  /** How far the level is below the highest temperature of the water, beyond the effect of noise, K. */
  readonly belowHighestK: number;
  /** Standard uncertainty of the level from steps of the readings, K. */
  readonly stepU: number;
  readonly lastsS: number;
  /** Whether the fire was fed on the plateau and the water exceeded its ceiling. */
  readonly risesWithFeeding: boolean;
}

const SHORTEST_S = 150;
/** Distance from the highest reading within which a reading is at the ceiling. */
const CEILING_K = 0.5;
/** The least share of the time since the ceiling was first reached that a boil spends at it. */
const CEILING_SHARE = 0.35;
/** Feeds within this time after the level is reached belong to the heating. */
const STEADY_AFTER_S = 120;
/** The 99.5 % quantile of the normal distribution. */
const NORMAL_995 = 2.576;

/** Returns `undefined` when the water never rests near its highest level. */
export function findPlateau(
  water: Pick<WaterCurve, 'timeS' | 'tempC' | 'periodS' | 'noiseK' | 'restingU'>,
  fromS: number,
  toS: number,
  feedsS: readonly number[],
): Plateau | undefined {
  const { timeS, tempC, periodS, noiseK } = water;
  const first = firstIndexAtOrAfter(timeS, fromS);
  const span = tempC.subarray(first, firstIndexAtOrAfter(timeS, toS));
  const usable = atLeast(span, Number.NEGATIVE_INFINITY);
  if (usable.length === 0) return undefined;
  const highestC = quantiles(usable, [0.995])[0]!;
  const ceilingC = highestC - CEILING_K;
  const top = atLeast(usable, ceilingC);
  const lastsS = top.length * periodS;
  if (lastsS < SHORTEST_S) return undefined;
  let reached = 0;
  while (!(span[reached]! >= ceilingC)) reached++;
  const reachedS = timeS[first + reached]!;
  const wasFed = feedsS.some((feedS) => feedS > reachedS + STEADY_AFTER_S && feedS < toS);
  const share = top.length / atLeast(span.subarray(reached), Number.NEGATIVE_INFINITY).length;
  const levelC = median(top);
  return {
    levelC,
    belowHighestK: Math.max(0, highestC - levelC - NORMAL_995 * noiseK),
    stepU: water.restingU,
    lastsS,
    risesWithFeeding: wasFed && share < CEILING_SHARE,
  };
}

/** Returns the values that are not below a limit, without NaN. */
function atLeast(values: Float64Array, low: number): Float64Array {
  const found = new Float64Array(values.length);
  let count = 0;
  for (let index = 0; index < values.length; index++) if (values[index]! >= low) found[count++] = values[index]!;
  return found.subarray(0, count);
}

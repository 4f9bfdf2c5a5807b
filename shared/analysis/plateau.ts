/**
 * The level at which the water stops rising, and whether it can be the boil. An open pot with little power may stall well below
 * the boil; such a level answers to feeding, a boil does not.
 */
import { firstPlaceAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

export interface Plateau {
  /** As read, °C. */
  readonly levelC: number;
  readonly lastsS: number;
  readonly answersToFeeding: boolean;
}

const SHORTEST_S = 150;
/** The level is looked for among the readings this close to the highest. */
const TOP_K = 1;
const AROUND_LEVEL_K = 0.4;
/** Feeds before the level has been reached for so long belong to the way up. */
const SETTLED_AFTER_S = 120;
/** After a feed the mean level between 3 and 8 minutes is held against the minute before. */
const FEED_ANSWERS_K = 0.5;

/** `undefined` when the water never rests near its highest level. */
export function findPlateau(
  water: WaterCurve,
  fromS: number,
  toS: number,
  feedsS: readonly number[],
): Plateau | undefined {
  const { timeS, tempC, periodS } = water;
  const from = firstPlaceAtOrAfter(timeS, fromS);
  const to = firstPlaceAtOrAfter(timeS, toS);
  const usable = tempC
    .slice(from, to)
    .filter((value) => !Number.isNaN(value))
    .sort();
  if (usable.length === 0) return undefined;
  const highestC = usable[Math.floor(0.995 * (usable.length - 1))]!;
  const top = usable.filter((value) => value >= highestC - TOP_K);
  const levelC = top[Math.floor(0.6 * (top.length - 1))]!;
  let count = 0;
  for (const value of top) if (Math.abs(value - levelC) <= AROUND_LEVEL_K) count += 1;
  const lastsS = count * periodS;
  if (lastsS < SHORTEST_S) return undefined;
  const reached = tempC.findIndex((value, place) => place >= from && value >= levelC - AROUND_LEVEL_K);
  const onPlateau = feedsS.filter((feedS) => feedS > timeS[reached]! + SETTLED_AFTER_S);
  return { levelC, lastsS, answersToFeeding: answersToFeeding(water, toS, onPlateau) };
}

function answersToFeeding(water: WaterCurve, toS: number, feedsS: readonly number[]): boolean {
  const rises = feedsS.flatMap((feedS) => {
    const before = meanBetween(water, feedS - 60, feedS);
    const after = meanBetween(water, feedS + 180, Math.min(toS, feedS + 480));
    return Number.isNaN(after - before) ? [] : [after - before];
  });
  if (rises.length === 0) return false;
  return rises.reduce((sum, rise) => sum + rise, 0) / rises.length > FEED_ANSWERS_K;
}

function meanBetween({ timeS, tempC }: WaterCurve, fromS: number, toS: number): number {
  let count = 0;
  let sum = 0;
  for (let place = firstPlaceAtOrAfter(timeS, fromS); place < timeS.length && timeS[place]! <= toS; place++) {
    if (Number.isNaN(tempC[place]!)) continue;
    count += 1;
    sum += tempC[place]!;
  }
  return sum / count;
}

/** Whether a reading stands still. */

import { fitLine } from '../statistics/line-fit.ts';
import { mean } from '../statistics/moments.ts';
import { median } from '../statistics/quantile.ts';
import type { Series } from './probe-scan.ts';

/** Readings that stray less than this over the window count as steady, K. Common practice, no source. */
export const STEADY_K = 0.3;
/** A slow probe that drifts by no more than this over the window is within some tenths of where it ends. */
const STILL_K = 0.1;
/** A bath is read over at least so many scans, and so long: a fast board sends fifteen in no time. */
export const STEADY_READINGS = 15;
export const STEADY_S = 20;

/** Standard uncertainty of a carefully made bath, K. Common practice, no source. */
export const BATH_UNCERTAINTY_K = { ice: 0.1, boil: 0.2 } as const;

export interface Steadiness {
  readonly mean: number;
  /** How far it moved from one end of the window to the other, by its trend. */
  readonly drift: number;
  readonly isSteady: boolean;
  /** Nothing is won by waiting longer. */
  readonly isStill: boolean;
}

/** Median of the changes of a normal scatter from one reading to the next, over its standard deviation: √2 × 0.6745. */
const MEDIAN_CHANGE = 0.9539;

/**
 * The last readings of a series as a bath is read from them; undefined while there are too few. Its trend counts, not its noise:
 * a noisy probe stands still as well, and is told of as noisy. The noise is taken from reading to reading, so that a jump within
 * the window is none.
 */
export function steadinessOf({ timesS, values }: Series): Steadiness | undefined {
  const endS = timesS.at(-1) ?? 0;
  let first = timesS.length - STEADY_READINGS;
  while (first > 0 && endS - timesS[first]! < STEADY_S) first -= 1;
  if (first < 0 || endS - timesS[first]! < STEADY_S) return undefined;
  const window = values.slice(first);
  const drift = fitLine(timesS.slice(first), window).slope * (endS - timesS[first]!);
  const changes = window.slice(1).map((value, index) => Math.abs(value - window[index]!));
  // Standard error of a trend over n equally spaced readings, from end to end.
  const standardErrorK = (median(changes) / MEDIAN_CHANGE) * Math.sqrt(12 / window.length);
  const within = (limitK: number) => Math.abs(drift) <= Math.max(limitK, 2 * standardErrorK);
  return { mean: mean(window), drift, isSteady: within(STEADY_K), isStill: within(STILL_K) };
}

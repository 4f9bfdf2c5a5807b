/** Determines whether a reading is steady. */

import { fitLine } from '../statistics/line-fit.ts';
import { mean } from '../statistics/moments.ts';
import { median } from '../statistics/quantile.ts';
import type { Series } from './probe-scan.ts';

/** Range, K, of the readings in the window below which they count as steady. Common practice, no source. */
export const STEADY_K = 0.3;
/** Drift, K, over the window below which a slow probe is within a few tenths of its final reading. */
const STILL_K = 0.1;
/** Least number of readings, and least time, for reading a bath: a fast board sends fifteen scans almost at once. */
export const STEADY_READINGS = 15;
export const STEADY_S = 20;

/** Standard uncertainty of a carefully made bath, K. Common practice, no source. */
export const BATH_UNCERTAINTY_K = { ice: 0.1, boil: 0.2 } as const;

export interface Steadiness {
  readonly mean: number;
  /** Change over the window, by its trend. */
  readonly drift: number;
  readonly isSteady: boolean;
  /** Whether waiting longer does not change the reading. */
  readonly isStill: boolean;
}

/**
 * Median absolute change from one reading to the next of normal noise, divided by its standard deviation: √2 × 0.6745.
 */
const MEDIAN_CHANGE = 0.9539;

/**
 * Returns the state of the last readings of a series, from which a bath is read; undefined while there are too few. The
 * trend counts, not the noise: a noisy probe can be steady, and has a finding of its own. The noise is computed from
 * changes between readings, so that a jump within the window does not count as noise.
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

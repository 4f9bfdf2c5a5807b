/**
 * Computes level and slope of a noisy curve: a straight line fitted to the readings within a few seconds of each
 * moment. On a steady ramp it is unbiased, and it needs no even spacing. Source: local linear regression, W. S.
 * Cleveland, J. Am. Stat. Assoc. 74 (1979) 829, with equal weights.
 */
import type { Segment } from './segments.ts';

export interface SmoothCurve {
  readonly timeS: Float64Array;
  /** NaN outside the segments. */
  readonly level: Float64Array;
  /** Slope per second. */
  readonly slope: Float64Array;
}

/** Fits within ±halfWidthS inside each segment; at least three readings, from a wider window where there are fewer. */
export function smooth(
  timeS: Float64Array,
  value: Float64Array,
  segments: readonly Segment[],
  halfWidthS: number,
): SmoothCurve {
  const level = new Float64Array(timeS.length).fill(Number.NaN);
  const slope = new Float64Array(timeS.length).fill(Number.NaN);
  for (const segment of segments) smoothSegment(timeS, value, segment, halfWidthS, level, slope);
  return { timeS, level, slope };
}

/**
 * One pass with running sums, relative to the start of the segment and to its first value so that little precision is
 * lost to cancellation: about 1e-8 of the slope over four hours.
 */
function smoothSegment(
  timeS: Float64Array,
  value: Float64Array,
  { from, to }: Segment,
  halfWidthS: number,
  level: Float64Array,
  slope: Float64Array,
): void {
  const startS = timeS[from]!;
  const base = value[from]!;
  let first = from;
  let end = from;
  let count = 0;
  let sumT = 0;
  let sumY = 0;
  let sumTT = 0;
  let sumTY = 0;
  for (let index = from; index < to; index++) {
    const centre = timeS[index]!;
    while (end < to && (timeS[end]! <= centre + halfWidthS || end < index + 2)) {
      const y = value[end]! - base;
      const t = timeS[end]! - startS;
      end++;
      if (Number.isNaN(y)) continue;
      count += 1;
      sumT += t;
      sumY += y;
      sumTT += t * t;
      sumTY += t * y;
    }
    while (timeS[first]! < centre - halfWidthS && first < index - 1) {
      const y = value[first]! - base;
      const t = timeS[first]! - startS;
      first++;
      if (Number.isNaN(y)) continue;
      count -= 1;
      sumT -= t;
      sumY -= y;
      sumTT -= t * t;
      sumTY -= t * y;
    }
    const spread = count * sumTT - sumT * sumT;
    const fitted = count > 1 && spread > 0 ? (count * sumTY - sumT * sumY) / spread : 0;
    slope[index] = fitted;
    level[index] = count > 0 ? base + (sumY - fitted * (sumT - count * (centre - startS))) / count : Number.NaN;
  }
}

/** Returns the value at a moment, linear between neighbours within `bridgeS` of each other; NaN elsewhere. */
export function valueAt(timeS: Float64Array, value: Float64Array, atS: number, bridgeS: number): number {
  const after = firstIndexAtOrAfter(timeS, atS);
  let high = after;
  while (high < timeS.length && Number.isNaN(value[high]!)) high++;
  let low = after < timeS.length && timeS[after] === atS ? after : after - 1;
  while (low >= 0 && Number.isNaN(value[low]!)) low--;
  if (low === high) return value[low] ?? Number.NaN;
  if (low < 0 || high >= timeS.length || timeS[high]! - timeS[low]! > bridgeS) return Number.NaN;
  const share = (atS - timeS[low]!) / (timeS[high]! - timeS[low]!);
  return value[low]! + share * (value[high]! - value[low]!);
}

/** Returns the index of the first moment at or after `atS`; the length when all are earlier. */
export function firstIndexAtOrAfter(timeS: Float64Array, atS: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle]! < atS) low = middle + 1;
    else high = middle;
  }
  return low;
}

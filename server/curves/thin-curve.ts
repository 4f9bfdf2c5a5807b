import { longestBridgeS, scanPeriodS, segmentsOf } from '../../shared/analysis/curves/segments.ts';
import { firstIndexAtOrAfter } from '../../shared/analysis/curves/smoothing.ts';

/** A curve for drawing: `null` is a gap, which no line may cross. */
export interface ThinCurve {
  t: number[];
  v: (number | null)[];
}

/** A stretch that no line may cross, s. */
export interface Pause {
  fromS: number;
  toS: number;
}

export interface Window {
  fromS: number;
  toS: number;
  /** About how many points may come out. */
  points: number;
}

/**
 * Thins a curve for a chart so that nothing an eye would see is lost: of every slice of time the lowest and the highest reading
 * stay, and so do both ends of every gap. Values are kept as they are; NaN is no reading.
 * @param bridgeS longest time between two readings that a line may cross
 */
export function thinCurve(
  timeS: Float64Array,
  value: Float64Array,
  { fromS, toS, points }: Window,
  bridgeS = longestBridgeS(scanPeriodS(timeS)),
): ThinCurve {
  const from = firstIndexAtOrAfter(timeS, fromS);
  const to = firstIndexAtOrAfter(timeS, toS + Number.EPSILON * Math.abs(toS));
  const times = timeS.subarray(from, to);
  const values = value.subarray(from, to);
  const sliceS = Math.max(toS - fromS, Number.MIN_VALUE) / Math.max(1, Math.floor(points / 2));
  const curve: ThinCurve = { t: [], v: [] };
  for (const segment of segmentsOf(times, values, bridgeS)) {
    const last = curve.t.at(-1);
    if (last !== undefined) {
      curve.t.push((last + times[segment.from]!) / 2);
      curve.v.push(null);
    }
    for (const index of selectedIndices(times, values, segment, fromS, sliceS)) {
      curve.t.push(times[index]!);
      curve.v.push(values[index]!);
    }
  }
  return curve;
}

/** First, lowest, highest and last of a segment's slices: the ends where a slice ends the segment, the extremes always. */
function* selectedIndices(
  times: Float64Array,
  values: Float64Array,
  segment: { from: number; to: number },
  fromS: number,
  sliceS: number,
): Generator<number> {
  const sliceOf = (index: number) => Math.floor((times[index]! - fromS) / sliceS);
  const lastUsable = lastUsableIndex(values, segment);
  let index = segment.from;
  while (index < segment.to) {
    const slice = sliceOf(index);
    let [lowest, highest] = [-1, -1];
    const start = index;
    for (; index < segment.to && sliceOf(index) === slice; index++) {
      if (Number.isNaN(values[index]!)) continue;
      if (lowest < 0 || values[index]! < values[lowest]!) lowest = index;
      if (highest < 0 || values[index]! > values[highest]!) highest = index;
    }
    if (lowest < 0) continue;
    const stored = new Set([lowest, highest]);
    if (start === segment.from) stored.add(segment.from);
    if (index === segment.to) stored.add(lastUsable);
    yield* [...stored].sort((a, b) => a - b);
  }
}

function lastUsableIndex(values: Float64Array, { from, to }: { from: number; to: number }): number {
  for (let index = to - 1; index > from; index--) if (!Number.isNaN(values[index]!)) return index;
  return from;
}

/** A curve that is broken at each pause as well. @param pauses in the order of time */
export function brokenAt({ t, v }: ThinCurve, pauses: readonly Pause[]): ThinCurve {
  const broken: ThinCurve = { t: [], v: [] };
  let next = 0;
  for (const [index, atS] of t.entries()) {
    for (; next < pauses.length && (pauses[next]!.fromS + pauses[next]!.toS) / 2 < atS; next++) {
      if (broken.v.length === 0 || broken.v.at(-1) === null || v[index] === null) continue;
      broken.t.push((pauses[next]!.fromS + pauses[next]!.toS) / 2);
      broken.v.push(null);
    }
    broken.t.push(atS);
    broken.v.push(v[index]!);
  }
  return broken;
}

import { longestBridgeS, scanPeriodS, segmentsOf } from '../../shared/analysis/curves/segments.ts';
import { firstPlaceAtOrAfter } from '../../shared/analysis/curves/smoothing.ts';

/** A curve for drawing: `null` is a gap, which no line may cross. */
export interface ThinCurve {
  t: number[];
  v: (number | null)[];
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
  const from = firstPlaceAtOrAfter(timeS, fromS);
  const to = firstPlaceAtOrAfter(timeS, toS + Number.EPSILON * Math.abs(toS));
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
    for (const place of keptPlaces(times, values, segment, fromS, sliceS)) {
      curve.t.push(times[place]!);
      curve.v.push(values[place]!);
    }
  }
  return curve;
}

/** First, lowest, highest and last of a segment's slices: the ends where a slice ends the segment, the extremes always. */
function* keptPlaces(
  times: Float64Array,
  values: Float64Array,
  segment: { from: number; to: number },
  fromS: number,
  sliceS: number,
): Generator<number> {
  const sliceOf = (place: number) => Math.floor((times[place]! - fromS) / sliceS);
  const lastUsable = lastUsablePlace(values, segment);
  let place = segment.from;
  while (place < segment.to) {
    const slice = sliceOf(place);
    let [lowest, highest] = [-1, -1];
    const start = place;
    for (; place < segment.to && sliceOf(place) === slice; place++) {
      if (Number.isNaN(values[place]!)) continue;
      if (lowest < 0 || values[place]! < values[lowest]!) lowest = place;
      if (highest < 0 || values[place]! > values[highest]!) highest = place;
    }
    if (lowest < 0) continue;
    const kept = new Set([lowest, highest]);
    if (start === segment.from) kept.add(segment.from);
    if (place === segment.to) kept.add(lastUsable);
    yield* [...kept].sort((a, b) => a - b);
  }
}

function lastUsablePlace(values: Float64Array, { from, to }: { from: number; to: number }): number {
  for (let index = to - 1; index > from; index--) if (!Number.isNaN(values[index]!)) return index;
  return from;
}

export interface EnvelopePoint {
  /** Board's clock, microseconds. */
  deviceUs: number;
  /** Arrival on the host's clock minus the board's clock, microseconds: true offset plus a delay of 0 or more. */
  offsetUs: number;
}

export interface OffsetLine {
  deviceUs: number;
  offsetUs: number;
  /** Change of the offset per unit of board time: how much slower the board's clock runs, dimensionless. */
  rate: number;
}

/** A ceramic resonator is accurate to about 0.5 %; anything beyond 1 % is a delay, not a clock rate. */
const MAX_RATE = 0.01;

/**
 * The line below all points that is nearest to them: the edge of the lower convex hull over their mean time. Delays are
 * never negative, so the true offset is the lower edge of the cloud. Method: S. B. Moon, P. Skelly, D. Towsley,
 * "Estimation and removal of clock skew from network delay measurements", IEEE INFOCOM 1999 (there as a linear
 * programme; the edge of the hull over the mean is its solution).
 *
 * @param points at least one, in rising board time
 * @param knownRate used when the points span less than `minSpanUs`, too short to separate a rate from delays
 */
export function fitLowerEnvelope(points: readonly EnvelopePoint[], knownRate: number, minSpanUs: number): OffsetLine {
  const first = points[0]!;
  const last = points[points.length - 1]!;
  if (last.deviceUs - first.deviceUs < minSpanUs) return restOnLowest(points, knownRate);
  const hull = lowerHull(points);
  const meanUs = points.reduce((sum, p) => sum + (p.deviceUs - first.deviceUs), 0) / points.length + first.deviceUs;
  let i = 1;
  while (i < hull.length - 1 && hull[i]!.deviceUs < meanUs) i++;
  const left = hull[i - 1]!;
  const right = hull[i]!;
  const rate = (right.offsetUs - left.offsetUs) / (right.deviceUs - left.deviceUs);
  return restOnLowest(points, Math.max(-MAX_RATE, Math.min(MAX_RATE, rate)));
}

/** The line of this rate that touches the cloud from below. */
function restOnLowest(points: readonly EnvelopePoint[], rate: number): OffsetLine {
  const anchor = points[points.length - 1]!;
  let lowest = Number.POSITIVE_INFINITY;
  for (const p of points) lowest = Math.min(lowest, p.offsetUs + rate * (anchor.deviceUs - p.deviceUs));
  return { deviceUs: anchor.deviceUs, offsetUs: lowest, rate };
}

/** Andrew's monotone chain, lower half. */
function lowerHull(points: readonly EnvelopePoint[]): EnvelopePoint[] {
  const hull: EnvelopePoint[] = [];
  for (const p of points) {
    while (hull.length >= 2) {
      const a = hull[hull.length - 2]!;
      const b = hull[hull.length - 1]!;
      const turn =
        (b.deviceUs - a.deviceUs) * (p.offsetUs - a.offsetUs) - (b.offsetUs - a.offsetUs) * (p.deviceUs - a.deviceUs);
      if (turn > 0) break;
      hull.pop();
    }
    hull.push(p);
  }
  return hull;
}

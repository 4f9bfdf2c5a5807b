/**
 * Readings in steps that last: what the instrument shows rests while the water climbs on, and only where it changes is the temperature
 * known, half-way between what was shown before and after. The curve is led through these edges. Between them, and after the last, the
 * water stands within half a step of what is shown.
 */
import { median } from '../../statistics/quantile.ts';
import { scanPeriodS } from './segments.ts';

export interface Stair {
  /** Usual step, K. */
  readonly stepK: number;
  /** Usual time from one edge to the next while the reading climbs, s. */
  readonly dwellS: number;
  /** The curve through the edges, at the moments of the readings. */
  readonly value: Float64Array;
  /** Whether no edge beyond is near enough to lead the curve at a moment. */
  isOpen(atS: number): boolean;
  /** The last edge before a moment, s; NaN before the first. */
  edgeBeforeS(atS: number): number;
  /** Time that the water needs for half a step after that edge, s, slowing as it did before. */
  halfStepS(atS: number): number;
}

interface Edge {
  readonly atS: number;
  readonly levelC: number;
  readonly sign: 1 | -1;
  /** What is shown after it. */
  readonly shownC: number;
}

/** Steps that last less than so many readings are noise of one reading, which the smoothing takes out. */
const LEAST_READINGS = 3;
/** A line needs this many steps. */
const LEAST_STEPS = 4;
/** A step that lasts longer than so many of its shorter neighbour is no part of one line with it. */
const LONG_DWELLS = 2;

/** `undefined` for readings that do not rest on steps. */
export function findStair(timeS: Float64Array, value: Float64Array): Stair | undefined {
  const edges = edgesOf(timeS, value);
  const climbs = edges.slice(1).flatMap((edge, at) => {
    const before = edges[at]!;
    return edge.sign === 1 && before.sign === 1
      ? [{ dwellS: edge.atS - before.atS, stepK: edge.levelC - before.levelC }]
      : [];
  });
  if (climbs.length < LEAST_STEPS) return undefined;
  const dwellS = median(climbs.map((climb) => climb.dwellS));
  const stepK = median(climbs.map((climb) => climb.stepK));
  if (dwellS < LEAST_READINGS * scanPeriodS(timeS)) return undefined;
  const { points, open } = lineThrough(edges, stepK / dwellS, stepK);
  return {
    stepK,
    dwellS,
    value: alongPoints(points, timeS, value),
    halfStepS: (atS) =>
      nextDwellS(
        edges,
        edges.findLastIndex((edge) => edge.atS <= atS),
        dwellS,
      ) / 2,
    edgeBeforeS: (atS) => edges.findLast((edge) => edge.atS <= atS)?.atS ?? Number.NaN,
    isOpen: (atS) => open.some(({ fromS, toS }) => atS > fromS && atS < toS),
  };
}

function edgesOf(timeS: Float64Array, value: Float64Array): Edge[] {
  const edges: Edge[] = [];
  let last = -1;
  for (let index = 0; index < timeS.length; index++) {
    const shownC = value[index]!;
    if (Number.isNaN(shownC)) continue;
    const beforeC = last < 0 ? shownC : value[last]!;
    if (shownC !== beforeC) {
      edges.push({
        atS: (timeS[last]! + timeS[index]!) / 2,
        levelC: (beforeC + shownC) / 2,
        sign: shownC > beforeC ? 1 : -1,
        shownC,
      });
    }
    last = index;
  }
  return edges;
}

/** Water that comes near its boil slows from step to step; by no more than this from one to the next. */
const MOST_SLOWING = 2;

/** How long the step after an edge would last, s: as long as the one before it, and by as much longer as that was than the one before. */
function nextDwellS(edges: readonly Edge[], last: number, usualS: number): number {
  const dwellBefore = (at: number) =>
    at > 0 && edges[at]!.sign === edges[at - 1]!.sign ? edges[at]!.atS - edges[at - 1]!.atS : undefined;
  const [before, earlier] = [dwellBefore(last), dwellBefore(last - 1)];
  if (before === undefined) return usualS;
  return before * Math.min(MOST_SLOWING, Math.max(1, before / (earlier ?? before)));
}

interface Point {
  readonly atS: number;
  readonly tempC: number;
}

/**
 * Corners of the curve, and where it is open. From an edge to a near one beyond the curve is straight. Else it goes at the rate before
 * to what is shown, rests there, and leaves at the rate after.
 */
function lineThrough(edges: readonly Edge[], rateKPerS: number, stepK: number) {
  const points: Point[] = [];
  const open: { fromS: number; toS: number }[] = [];
  const dwells = edges.slice(1).map((edge, at) => edge.atS - edges[at]!.atS);
  const goesOn = (at: number) => at >= 0 && at < dwells.length && edges[at]!.sign === edges[at + 1]!.sign;
  const usualS = stepK / rateKPerS;
  const first = edges[0]!;
  const halfFirstS = (goesOn(0) ? dwells[0]! : usualS) / 2;
  points.push({ atS: first.atS - halfFirstS, tempC: first.levelC - (first.sign * stepK) / 2 });
  open.push({ fromS: Number.NEGATIVE_INFINITY, toS: first.atS });
  edges.forEach((edge, at) => {
    points.push({ atS: edge.atS, tempC: edge.levelC });
    const lastsS = dwells[at] ?? Number.POSITIVE_INFINITY;
    const beforeS = goesOn(at - 1) ? dwells[at - 1]! : usualS;
    const afterS = goesOn(at + 1) ? dwells[at + 1]! : usualS;
    if (goesOn(at) && lastsS <= LONG_DWELLS * Math.min(beforeS, afterS)) return;
    open.push({ fromS: edge.atS, toS: edge.atS + lastsS });
    const slowedS = nextDwellS(edges, at, usualS);
    const [inS, outS] = [Math.min(slowedS, lastsS) / 2, Math.min(afterS, lastsS) / 2];
    const reach = (takesS: number, fullS: number) =>
      edge.levelC + (edge.shownC - edge.levelC) * Math.min(1, (2 * takesS) / fullS);
    points.push({ atS: edge.atS + inS, tempC: reach(inS, slowedS) });
    if (Number.isFinite(lastsS)) {
      const next = edges[at + 1]!;
      const backC = next.levelC + (edge.shownC - next.levelC) * Math.min(1, (2 * outS) / afterS);
      points.push({ atS: next.atS - outS, tempC: backC });
    }
  });
  return { points, open };
}

function alongPoints(points: readonly Point[], timeS: Float64Array, value: Float64Array): Float64Array {
  let next = 0;
  return timeS.map((atS, index) => {
    if (Number.isNaN(value[index]!)) return Number.NaN;
    while (next < points.length && points[next]!.atS <= atS) next++;
    const [low, high] = [points[next - 1], points[next]];
    if (!low) return high!.tempC;
    if (!high || high.atS === low.atS) return low.tempC;
    return low.tempC + ((high.tempC - low.tempC) * (atS - low.atS)) / (high.atS - low.atS);
  });
}

/**
 * Interpolates readings of an instrument with coarse steps: the display stays constant while the water warms, and the
 * temperature is known only where the display changes, half-way between the values before and after. The curve passes
 * through these edges. Between them, and after the last, the water is within half a step of the display.
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
  /** Whether the curve is open at a moment: no edge after it is near enough for an interpolation. */
  isOpen(atS: number): boolean;
  /** The last edge before a moment, s; NaN before the first. */
  edgeBeforeS(atS: number): number;
  /** Time that the water needs for half a step after that edge, s, if it continues to slow as before. */
  halfStepS(atS: number): number;
}

interface Edge {
  readonly atS: number;
  readonly levelC: number;
  readonly sign: 1 | -1;
  /** The display after it. */
  readonly shownC: number;
}

/** Steps shorter than this many readings are noise, which the smoothing removes. */
const LEAST_READINGS = 3;
/** The least number of steps for this interpolation. */
const LEAST_STEPS = 4;
/** A step longer than this multiple of its shorter neighbour is not interpolated with it. */
const LONG_DWELLS = 2;

/** Returns `undefined` for readings that do not rest on steps. */
export function findStair(timeS: Float64Array, value: Float64Array): Stair | undefined {
  const shortestDwellS = LEAST_READINGS * scanPeriodS(timeS);
  if (!mayRestOnSteps(timeS, value, shortestDwellS)) return undefined;
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
  if (dwellS < shortestDwellS) return undefined;
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

/**
 * Whether enough pairs of edges climb, and at least half of them rest as long as a step: without that the median does
 * not. A fine reading has an edge at nearly every scan, so this counts them without a list.
 */
function mayRestOnSteps(timeS: Float64Array, value: Float64Array, shortestDwellS: number): boolean {
  let climbs = 0;
  let shortClimbs = 0;
  let last = -1;
  let edgeS = Number.NaN;
  let edgeRose = false;
  for (let index = 0; index < timeS.length; index++) {
    const shownC = value[index]!;
    if (Number.isNaN(shownC)) continue;
    const beforeC = last < 0 ? shownC : value[last]!;
    if (shownC !== beforeC) {
      const atS = (timeS[last]! + timeS[index]!) / 2;
      const rose = shownC > beforeC;
      if (rose && edgeRose) {
        climbs += 1;
        if (atS - edgeS < shortestDwellS) shortClimbs += 1;
      }
      edgeS = atS;
      edgeRose = rose;
    }
    last = index;
  }
  return climbs >= LEAST_STEPS && 2 * shortClimbs <= climbs;
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

/** Water slows from step to step near its boil; the largest factor from one step to the next. */
const MOST_SLOWING = 2;

/**
 * Returns the expected duration of the step after an edge, s: that of the step before, lengthened by the same factor as
 * that one was.
 */
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
 * Returns the vertices of the curve, and where it is open. Between two near edges the curve is straight. Else it
 * continues at the rate before to the displayed value, stays there, and leaves at the rate after.
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

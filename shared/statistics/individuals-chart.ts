/**
 * Control limits for single values in the order they were taken, with the scatter estimated from the differences of
 * neighbours so that a slow drift does not widen the limits that are to show it.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, with the constants for ranges of two values.
 */
import { mean } from './moments.ts';

type Values = ArrayLike<number>;

/** Mean range of two normal values in units of their standard deviation, d₂; and the factor D₄ for the range's own limit. */
const RANGE_TO_DEVIATION = 1.128;
const RANGE_LIMIT_FACTOR = 3.267;

/** Rule 4 of the Western Electric handbook (1956), as quoted in the e-Handbook, 6.3.2: a run on one side of the centre. */
const RUN_LENGTH = 8;

/** Limits of an individuals chart. */
export interface IndividualsChart {
  centre: number;
  low: number;
  high: number;
  meanMovingRange: number;
  movingRangeLimit: number;
  /** Indices of values beyond a limit. */
  outside: number[];
  /** Indices of values whose jump from the one before is beyond the range's limit. */
  jumps: number[];
  /** Indices of values that end or continue a run of eight or more on one side of the centre. */
  runs: number[];
}

/**
 * Centre line and three-deviation limits.
 * @param values in the order taken, at least two
 * @throws RangeError for fewer than two values.
 */
export function individualsChart(values: Values): IndividualsChart {
  if (values.length < 2) throw new RangeError('A chart of single values needs at least two');
  const list = Array.from(values);
  const ranges = list.slice(1).map((value, index) => Math.abs(value - list[index]!));
  const centre = mean(list);
  const meanMovingRange = mean(ranges);
  const reach = (3 * meanMovingRange) / RANGE_TO_DEVIATION;
  const movingRangeLimit = RANGE_LIMIT_FACTOR * meanMovingRange;
  return {
    centre,
    low: centre - reach,
    high: centre + reach,
    meanMovingRange,
    movingRangeLimit,
    outside: places(list, (value) => Math.abs(value - centre) > reach),
    jumps: places(ranges, (range) => range > movingRangeLimit).map((index) => index + 1),
    runs: places(list, (_, index) => endsRun(list, index, centre)),
  };
}

function places(values: readonly number[], holds: (value: number, index: number) => boolean): number[] {
  return values.flatMap((value, index) => (holds(value, index) ? [index] : []));
}

function endsRun(values: readonly number[], index: number, centre: number): boolean {
  const run = values.slice(Math.max(0, index - RUN_LENGTH + 1), index + 1);
  return run.length === RUN_LENGTH && (run.every((value) => value > centre) || run.every((value) => value < centre));
}

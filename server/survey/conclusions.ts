/** Conclusions from the findings by the t and the binomial distribution, which SQL does not have. */
import { binomialBand } from '../../shared/statistics/binomial.ts';
import { coverageFactor } from '../../shared/statistics/student-t.ts';
import type { Findings } from './questions.ts';

const COVERAGE = 0.95;

export interface Change {
  readonly value: number;
  /** Undefined where a side has one burn, which gives no estimate of the scatter. */
  readonly interval: readonly [low: number, high: number] | undefined;
}

/** Relative difference of a later revision on one bench, with its 95 % interval (Welch). */
export function stepOf(row: Findings['step-on-every-bench'][number]): Change {
  return change(row.relative_difference!, row.relative_standard_error, row.degrees_of_freedom, COVERAGE);
}

/**
 * Drift of one bench per year, relative. The intervals of all benches together hold with 95 % (Bonferroni): among
 * twenty benches without drift, one would seem to drift by intervals of 95 % each.
 * @param benches number of benches compared
 */
export function driftOf(row: Findings['drifting-benches'][number], benches: number): Change {
  const coverage = 1 - (1 - COVERAGE) / benches;
  return change(row.drift_per_year!, row.standard_error_per_year, row.degrees_of_freedom, coverage);
}

function change(value: number, error: number | null, freedom: number | null, coverage: number): Change {
  if (error === null || freedom === null || freedom <= 0) return { value, interval: undefined };
  const half = coverageFactor(coverage, freedom) * error;
  return { value, interval: [value - half, value + half] };
}

/** Which way a change goes beyond its interval: -1, 1, or 0 for neither. */
export function directionOf({ interval }: Change): -1 | 0 | 1 {
  if (!interval) return 0;
  return interval[1] < 0 ? -1 : interval[0] > 0 ? 1 : 0;
}

/** How many of the given number of 95 % intervals may hold by chance, if their coverage is right. */
export function expectedHeld(pairs: number): { low: number; high: number } {
  return binomialBand(pairs, COVERAGE, COVERAGE);
}

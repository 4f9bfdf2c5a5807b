/**
 * Clocks that were set while readings were taken. Times of day alone do not tell a change to summer time from an hour
 * without readings: what looks like one is shown to the person, with what is taken for it.
 */
import type { ClockStep } from '../../../shared/contract/imports.ts';
import { median } from '../../../shared/statistics/quantile.ts';

const HOUR_S = 3600;
const DAY_S = 86_400;
/** Clocks are changed at night: by the IANA time zone database nearly always between midnight and four. */
const CHANGED_BEFORE_S = 4 * HOUR_S;
/** Rows further apart than this do not tell an hour too many from a usual one. */
const WIDEST_ROWS_S = 1800;
/** Nobody sets a clock so often: what goes up and down more is none. */
const MOST_SETS = 24;
const NEAR_SHARE = 0.2;
const NEAR_S = 2;

export interface WrittenTime {
  line: number;
  /** Seconds on the clock as it was written, days counted on. */
  clockS: number;
}

/** How far the clock had been put forward before a line, s. */
export function putForwardS(steps: readonly ClockStep[] | undefined, line: number): number {
  return (steps ?? []).reduce((sum, step) => (step.line <= line ? sum + step.byS : sum), 0);
}

/** Where rows that come evenly are an hour further apart, or go back by an hour. */
export function clockSetsIn(published: readonly WrittenTime[]): ClockStep[] {
  const steps = published.slice(1).map(({ line, clockS }, index) => ({ line, byS: clockS - published[index]!.clockS }));
  const rising = steps.flatMap(({ byS }) => (byS > 0 ? [byS] : []));
  if (rising.length < 3) return [];
  const usualS = median(rising);
  if (usualS > WIDEST_ROWS_S) return [];
  const isNear = (stepS: number) => Math.abs(stepS - usualS) <= Math.max(NEAR_S, NEAR_SHARE * usualS);
  const sets = steps.flatMap(({ line, byS }): ClockStep[] => {
    if (byS > HOUR_S && isNear(byS - HOUR_S)) return [{ line, byS: HOUR_S }];
    return byS < 0 && isNear(byS + HOUR_S) ? [{ line, byS: -HOUR_S }] : [];
  });
  return sets.length > MOST_SETS ? [] : sets;
}

/** A clock does not go back by itself, but an hour may pass without a row: by day that is taken for what it is. */
export function likelySets(sets: readonly ClockStep[], published: readonly WrittenTime[]): ClockStep[] {
  return sets.filter(({ line, byS }) => {
    const before = published[published.findIndex((time) => time.line === line) - 1]!;
    return byS < 0 || before.clockS % DAY_S < CHANGED_BEFORE_S;
  });
}

/** Whether an uneven step at night, forward or back, may be that of a clock that was changed. */
export function mayBeClockSet(beforeS: number, clockS: number): ClockStep['byS'] | undefined {
  const stepS = clockS - beforeS;
  const isAtNight = beforeS % DAY_S < CHANGED_BEFORE_S;
  if (!isAtNight) return undefined;
  if (stepS >= HOUR_S && stepS < 2 * HOUR_S) return HOUR_S;
  return stepS < 0 && stepS >= -HOUR_S ? -HOUR_S : undefined;
}

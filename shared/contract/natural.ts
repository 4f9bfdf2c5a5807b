/**
 * What somebody can have typed or a file can state: dates at which there were such burns, zones that there are, masses and temperatures
 * that nature has. The readings of a probe are not refused but flagged (`shared/analysis/curves/natural-limits.ts`).
 */
import { z } from 'zod';

const EARLIEST_UTC_MS = Date.UTC(1990, 0);
const LATEST_UTC_MS = Date.UTC(2200, 0);

/** Whether a moment can be the date of a burn; a machine without a clock begins in 1970. */
export function isDate(utcMs: number): boolean {
  return utcMs >= EARLIEST_UTC_MS && utcMs < LATEST_UTC_MS;
}

/** When a burn began, ms UTC; undefined without a clock that could be right. */
export function startDateMs(burn: {
  readonly startedUtcMs?: number | undefined;
  readonly clockSource?: string | undefined;
}): number | undefined {
  const { startedUtcMs, clockSource } = burn;
  return startedUtcMs === undefined || clockSource === 'none' || !isDate(startedUtcMs) ? undefined : startedUtcMs;
}

/** A date, milliseconds UTC. */
export const dateUtcMs = z.int().refine(isDate, { error: 'date' });

export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

export const zone = z.string().trim().min(1).max(120).refine(isZone, { error: 'zone' });

const MOST_KG = 10_000;
export const massKg = z.number().positive().max(MOST_KG);
export const massOrNoneKg = z.number().nonnegative().max(MOST_KG);

/** From absolute zero to where no stove is solid any more. */
export const tempC = z.number().min(-273.15).max(4000);

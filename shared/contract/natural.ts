/**
 * Schemas that limit entered and imported values to possible ones: dates of possible burns, existing time zones,
 * physically possible masses and temperatures. Readings of a probe are not refused but flagged
 * (`shared/analysis/curves/natural-limits.ts`).
 */
import { z } from 'zod';
import { isDate } from './burn-date.ts';

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

/** From absolute zero to above the melting point of every stove. */
export const tempC = z.number().min(-273.15).max(4000);

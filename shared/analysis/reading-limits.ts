/**
 * The limits of a reading by a person: one outside was read or typed wrongly, and the page asks for it again while the
 * dial is within reach.
 */
import type { Channel } from '../contract/burn-record.ts';

/**
 * Water in an open pot gets no hotter than it boils, and the error of a dial is a few kelvins ("common practice, no
 * source").
 */
const WATER_C = { low: -5, high: 110 };
const ANY_TEMPERATURE_C = { low: -60, high: 1400 };
/** The mass of a pile of wood, or of a stove with its pot. */
const MASS_KG = { low: 0, high: 2000 };
/** Air from the summit of the highest mountain to the deepest valley (about 31 and 109 kPa). */
const AIR_PA = { low: 30_000, high: 110_000 };
const PERCENT = { low: 0, high: 100 };

/** Returns the limits in the unit of the channel. */
export function readingLimits({ role, unit }: Pick<Channel, 'role' | 'unit'>): { low: number; high: number } {
  if (unit === 'kg') return MASS_KG;
  if (unit === 'Pa') return role === 'stationPressure' ? AIR_PA : { low: -AIR_PA.high, high: AIR_PA.high };
  if (unit === '%') return PERCENT;
  return role === 'water' || role === 'contentCore' ? WATER_C : ANY_TEMPERATURE_C;
}

/** Between what a person's reading must lie: what is outside was read or typed wrongly, and is asked again while the dial is at hand. */
import type { Channel } from '../contract/burn-record.ts';

/** Water in an open pot gets no hotter than it boils, and a dial errs by a few kelvins ("common practice, no source"). */
const WATER_C = { low: -5, high: 110 };
const ANY_TEMPERATURE_C = { low: -60, high: 1400 };
/** Of a pile of wood, or of a stove with its pot. */
const MASS_KG = { low: 0, high: 2000 };
/** Air from the summit of the highest mountain to the deepest valley (about 31 and 109 kPa). */
const AIR_PA = { low: 30_000, high: 110_000 };
const PERCENT = { low: 0, high: 100 };

/** In the unit of the channel. */
export function readingLimits({ role, unit }: Pick<Channel, 'role' | 'unit'>): { low: number; high: number } {
  if (unit === 'kg') return MASS_KG;
  if (unit === 'Pa') return role === 'stationPressure' ? AIR_PA : { low: -AIR_PA.high, high: AIR_PA.high };
  if (unit === '%') return PERCENT;
  return role === 'water' || role === 'contentCore' ? WATER_C : ANY_TEMPERATURE_C;
}

/**
 * Limits of physically possible readings. A reading beyond them is stored as received and flagged as out of range: its
 * cause is the probe, not the stove.
 */
import type { Channel } from '../../contract/burn-record.ts';
import { ZERO_CELSIUS_K } from '../../physics/units.ts';

interface Limits {
  readonly low: number;
  readonly high: number;
}

const ANY: Limits = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
/**
 * From absolute zero to where every probe has melted: tungsten melts at 3422 °C (CRC Handbook of Chemistry and
 * Physics).
 */
const TEMPERATURE_C: Limits = { low: -ZERO_CELSIUS_K, high: 4000 };

const limitsOf: Readonly<Record<Channel['unit'], Limits>> = {
  Cel: TEMPERATURE_C,
  uV: TEMPERATURE_C,
  Ohm: TEMPERATURE_C,
  // A scale zeroed with the pile on it reads negative, by the mass of the pile at most ("common practice, no source").
  kg: { low: -10_000, high: 10_000 },
  // A gauge reads at most one atmosphere below zero.
  Pa: { low: -110_000, high: 1e8 },
  '%': ANY,
  '1': ANY,
};

/** Returns the limits of possible values, which are °C for raw voltages and resistances. */
export function naturalLimits(unit: Channel['unit']): Limits {
  return limitsOf[unit];
}

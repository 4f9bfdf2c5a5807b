/** Beyond these a reading is stored as it came and flagged as out of range: it says something about the probe, not the bench. */
import type { Channel } from '../../contract/burn-record.ts';
import { ZERO_CELSIUS_K } from '../../physics/units.ts';

interface Limits {
  readonly low: number;
  readonly high: number;
}

const ANY: Limits = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
/** From absolute zero to where no probe is solid any more: tungsten melts at 3422 °C (CRC Handbook of Chemistry and Physics). */
const TEMPERATURE_C: Limits = { low: -ZERO_CELSIUS_K, high: 4000 };

const limitsOf: Readonly<Record<Channel['unit'], Limits>> = {
  Cel: TEMPERATURE_C,
  uV: TEMPERATURE_C,
  Ohm: TEMPERATURE_C,
  // A scale set to zero with the pile on it shows less than nothing, by the pile at most ("common practice, no source").
  kg: { low: -10_000, high: 10_000 },
  // A gauge shows at most a whole atmosphere below zero.
  Pa: { low: -110_000, high: 1e8 },
  '%': ANY,
  '1': ANY,
};

/** Between what values can be of this world; raw voltages and resistances are °C by then. */
export function naturalLimits(unit: Channel['unit']): Limits {
  return limitsOf[unit];
}

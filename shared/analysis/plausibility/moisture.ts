import type { FuelLot } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';

/**
 * Wet basis. Firewood dries to 0.15 to 0.25; wood at 0.40 holds two thirds of its dry mass in water and hardly keeps a small
 * fire alive ("common practice, no source"). The same figure on dry basis is 0.29 wet.
 */
const GREEN_WET = 0.4;

/**
 * Whether the basis of a moisture looks exchanged with the other one.
 * @param lot name for the sentence
 */
export function moistureContradiction(lot: string, moisture: NonNullable<FuelLot['moisture']>): Message | undefined {
  const { fraction, basis, how } = moisture;
  if (basis !== 'wet') return undefined;
  const asDry = { lot, fraction, otherwise: fraction / (1 + fraction) };
  // Electrical meters are made to show the share of the dry mass: EN 13183-2:2002, from memory.
  if (how === 'meter') return { code: 'moistureMeterWet', params: asDry };
  return fraction >= GREEN_WET ? { code: 'moistureWetLikeGreen', params: asDry } : undefined;
}

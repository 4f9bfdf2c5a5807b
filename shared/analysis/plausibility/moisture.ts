import type { FuelLot } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';

/**
 * Wet basis. Firewood dries to 0.15 to 0.25; wood at 0.40 contains two thirds of its dry mass in water and hardly
 * sustains a small fire ("common practice, no source"). The same figure on dry basis is 0.29 wet.
 */
const GREEN_WET = 0.4;

/**
 * Returns a message where a moisture seems to be on the other basis than stated.
 * @param lot name for the sentence
 */
export function moistureContradiction(lot: string, moisture: NonNullable<FuelLot['moisture']>): Message | undefined {
  const { fraction, basis, how } = moisture;
  if (basis !== 'wet') return undefined;
  const asDry = { lot, fraction, otherwise: fraction / (1 + fraction) };
  // Electrical meters display the share of the dry mass: EN 13183-2:2002, from memory.
  if (how === 'meter') return { code: 'moistureMeterWet', params: asDry };
  return fraction >= GREEN_WET ? { code: 'moistureWetLikeGreen', params: asDry } : undefined;
}

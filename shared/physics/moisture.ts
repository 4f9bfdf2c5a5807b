import { requirePositive, requireWithin } from './range.ts';

/**
 * Moisture of fuel on its two bases. Wet basis (as received, what fuel standards report) is water over wet mass; dry
 * basis (what most pin meters read, from memory) is water over oven-dry mass. 20 % wet basis is 25 % dry basis.
 * Definitions: ISO 18134 (oven at 105 °C to constant mass, wet basis).
 */

/**
 * Moisture dry basis, a fraction, from moisture wet basis, 0 to 0.99: d = w / (1 − w).
 * @throws RangeError outside the range.
 */
export function moistureDryFromWet(moistureWetFraction: number): number {
  requireWithin('Moisture on the wet basis', moistureWetFraction, 0, 0.99, '(a fraction)');
  return moistureWetFraction / (1 - moistureWetFraction);
}

/**
 * Moisture wet basis, a fraction, from moisture dry basis, 0 to 99: w = d / (1 + d).
 * @throws RangeError outside the range.
 */
export function moistureWetFromDry(moistureDryFraction: number): number {
  requireWithin('Moisture on the dry basis', moistureDryFraction, 0, 99, '(a fraction)');
  return moistureDryFraction / (1 + moistureDryFraction);
}

/**
 * Moisture wet basis, a fraction, from one sample weighed wet and oven-dry in the same unit.
 * @throws RangeError when the wet mass is not above zero or the dry mass is not between zero and the wet mass.
 */
export function moistureWetFromMasses(wetMass: number, dryMass: number): number {
  requirePositive('The mass of the wet sample', wetMass, '');
  requireWithin('The mass of the oven-dry sample', dryMass, 0, wetMass, '');
  return (wetMass - dryMass) / wetMass;
}

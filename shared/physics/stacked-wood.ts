import type { TypicalValue } from './fuel.ts';
import { requireWithin } from './range.ts';

/**
 * Mass of stacked firewood from its volume, for a person without a scale. It is a poor measurement, and its stated
 * uncertainty shows that: the share of a stack that is wood ranges from one half to three quarters with the length,
 * straightness and stacking of the logs (the boiler maker's fuel table that gives the masses takes 0.65 for conifers
 * and 0.59 for broadleaved wood, 1 m logs).
 */

/** Standard uncertainty of such a mass as a share of it: stacking and density of the wood. Common practice, no source. */
export const STACKED_MASS_RELATIVE_U = 0.15;

const TABLE_MOISTURE_WET = 0.15;

/**
 * Mass, kg, of a stack in its present state, with its standard uncertainty (15 % of it, moisture excepted). The table's
 * mass at 15 % moisture is converted to the actual moisture with the dry wood of the stack unchanged; swelling of wet
 * wood (a few per cent in volume) is inside the uncertainty.
 * @param stackedM3 outside volume of the stack, up to 100 m³
 * @param stackedKgPerM3At15Percent mass of one stacked cubic metre at 15 % moisture, 50 to 1000 kg/m³
 * @param moistureWetFraction moisture of the wood on the wet basis, 0 to 0.7
 * @throws RangeError outside a range.
 */
export function stackedMassKg(
  stackedM3: number,
  stackedKgPerM3At15Percent: number,
  moistureWetFraction: number,
): TypicalValue {
  requireWithin('The volume of the stack', stackedM3, 0, 100, 'm³');
  requireWithin('The mass of a stacked cubic metre', stackedKgPerM3At15Percent, 50, 1000, 'kg/m³');
  requireWithin('Moisture on the wet basis', moistureWetFraction, 0, 0.7, '(a fraction)');
  const dryKg = stackedM3 * stackedKgPerM3At15Percent * (1 - TABLE_MOISTURE_WET);
  const value = dryKg / (1 - moistureWetFraction);
  return { value, standardUncertainty: value * STACKED_MASS_RELATIVE_U };
}

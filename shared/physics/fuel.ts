import { requireWithin } from './range.ts';

/**
 * Heating value of solid fuel: from gross to net, from dry to as received.
 *
 * Constants:
 * - 2.443 MJ per kg of water, heat of vaporisation at 25 °C and constant pressure as rounded in fuel standards (ISO
 *   18125 and ISO 1928, 24.43 J/g per per cent of moisture; form from memory, the value agrees with IAPWS-IF97
 *   2.4417 MJ/kg).
 * - 0.2122 MJ/kg per % hydrogen, 0.0008 MJ/kg per % oxygen and nitrogen: ISO 18125 net dry at constant pressure, from
 *   memory; the form 0.212·H + 0.0245·M + 0.0008·O of ISO 1928 is printed in the 2006 IPCC Guidelines, volume 2,
 *   chapter 1.
 */
export const WATER_IN_FUEL_MJ_PER_KG = 2.443;

const PER_PERCENT_HYDROGEN_MJ_PER_KG = 0.2122;
const PER_PERCENT_OXYGEN_AND_NITROGEN_MJ_PER_KG = 0.0008;

/** A value with its standard uncertainty, in the unit of the field that contains it. */
export interface TypicalValue {
  readonly value: number;
  readonly standardUncertainty: number;
}

/**
 * Net heating value of char left by a wood fire, MJ/kg dry. 29.5 is the default of the water boiling protocols (from
 * memory); the spread covers what is published for charcoal (27.6 at 10 % ash to 34 at 1 %), taken as ±3 at 95 %.
 */
export const CHAR_NET_MJ_PER_KG: TypicalValue = { value: 29.5, standardUncertainty: 1.5 };

/** Net heating value of a paraffin-wax firelighter, MJ/kg, from memory; wax with wood fibre is lower, hence the spread. */
export const FIRELIGHTER_WAX_NET_MJ_PER_KG: TypicalValue = { value: 40, standardUncertainty: 3 };

/**
 * Net heating value as received, MJ per kg of wet fuel: q·(1 − M) − 2.443·M. It turns negative above about 88 %
 * moisture, where the fuel cannot dry itself.
 * @param netDryMJPerKg net heating value of the oven-dry fuel, 0 to 60 MJ/kg
 * @param moistureWetFraction moisture on the wet basis, a fraction 0 to 1 (not per cent, not dry basis)
 * @throws RangeError outside either range.
 */
export function netAsReceivedMJPerKg(netDryMJPerKg: number, moistureWetFraction: number): number {
  requireWithin('The net heating value of the dry fuel', netDryMJPerKg, 0, 60, 'MJ/kg');
  requireWithin('Moisture on the wet basis', moistureWetFraction, 0, 1, '(a fraction)');
  return netDryMJPerKg * (1 - moistureWetFraction) - WATER_IN_FUEL_MJ_PER_KG * moistureWetFraction;
}

/**
 * Net heating value of the oven-dry fuel, MJ/kg, from one as received: the inverse of `netAsReceivedMJPerKg`.
 * @param netAsReceived MJ per kg of wet fuel, −2.443 to 60
 * @param moistureWetFraction moisture on the wet basis, a fraction 0 to 0.95
 * @throws RangeError outside either range.
 */
export function netDryMJPerKg(netAsReceived: number, moistureWetFraction: number): number {
  requireWithin('The net heating value as received', netAsReceived, -WATER_IN_FUEL_MJ_PER_KG, 60, 'MJ/kg');
  requireWithin('Moisture on the wet basis', moistureWetFraction, 0, 0.95, '(a fraction)');
  return (netAsReceived + WATER_IN_FUEL_MJ_PER_KG * moistureWetFraction) / (1 - moistureWetFraction);
}

/** What the conversion from gross to net needs of the composition: per cent of dry mass. */
export interface GrossToNetComposition {
  readonly hydrogenPercent: number;
  readonly oxygenPercent: number;
  readonly nitrogenPercent: number;
}

/**
 * Net heating value at constant pressure of the dry fuel, MJ/kg, from the gross one at constant volume:
 * q_net = q_gross − 0.2122·H − 0.0008·(O + N), H, O, N in per cent of dry mass (ISO 18125, from memory).
 * @throws RangeError for a gross value outside 0 to 60 MJ/kg or a share outside 0 to 100 %.
 */
export function netDryFromGrossDryMJPerKg(grossDryMJPerKg: number, composition: GrossToNetComposition): number {
  requireWithin('The gross heating value of the dry fuel', grossDryMJPerKg, 0, 60, 'MJ/kg');
  const { hydrogenPercent, oxygenPercent, nitrogenPercent } = composition;
  requireWithin('The share of hydrogen', hydrogenPercent, 0, 100, '% of dry mass');
  requireWithin('The share of oxygen', oxygenPercent, 0, 100, '% of dry mass');
  requireWithin('The share of nitrogen', nitrogenPercent, 0, 100, '% of dry mass');
  return (
    grossDryMJPerKg -
    PER_PERCENT_HYDROGEN_MJ_PER_KG * hydrogenPercent -
    PER_PERCENT_OXYGEN_AND_NITROGEN_MJ_PER_KG * (oxygenPercent + nitrogenPercent)
  );
}

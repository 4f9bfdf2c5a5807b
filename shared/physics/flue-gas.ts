import { requireWithin } from './range.ts';

/**
 * Dry flue gas of a complete burn: how much air went through the fire and what share of the heat left through the
 * stack. None of these formulas includes unburnt gas, radiation or char.
 *
 * Conventions that differ between authors are named parameters, never a silent choice:
 * - oxygen in dry air as 20.9 % (stack-testing practice) or 21 % (textbooks, boiler trade);
 * - the highest possible CO2 of the fuel, 20.3 % for wood (trade value; 20.4 % from C50 H6 O43 by mass).
 */
export type OxygenInAir = 20.9 | 21;

/** CO2 of wood burnt without any excess air, % of dry flue gas (trade value). */
export const WOOD_MAX_CO2_PERCENT = 20.3;

function requireOxygen(oxygenPercent: number): void {
  requireWithin('Oxygen in the dry flue gas', oxygenPercent, 0, 20, '%');
}

/**
 * Air ratio λ, air supplied over air needed, from oxygen in dry flue gas, 0 to 20 %: λ = O_air / (O_air − O2). Excess
 * air is λ − 1.
 * @throws RangeError outside the range.
 */
export function airRatioFromOxygen(oxygenPercent: number, oxygenInAir: OxygenInAir = 20.9): number {
  requireOxygen(oxygenPercent);
  return oxygenInAir / (oxygenInAir - oxygenPercent);
}

/**
 * CO2 in dry flue gas, %, from its oxygen, 0 to 20 %: CO2 = CO2_max·(O_air − O2)/O_air.
 * @throws RangeError outside the range.
 */
export function carbonDioxideFromOxygenPercent(
  oxygenPercent: number,
  maxCarbonDioxidePercent = WOOD_MAX_CO2_PERCENT,
  oxygenInAir: OxygenInAir = 20.9,
): number {
  requireOxygen(oxygenPercent);
  requireWithin('The highest possible CO2', maxCarbonDioxidePercent, 1, 21, '%');
  return (maxCarbonDioxidePercent * (oxygenInAir - oxygenPercent)) / oxygenInAir;
}

/**
 * A concentration converted to a reference oxygen content (13 % for small wood fires), in the unit it was given:
 * C·(O_air − O_ref)/(O_air − O2).
 * @throws RangeError for oxygen outside 0 to 20 %.
 */
export function atReferenceOxygen(
  concentration: number,
  oxygenPercent: number,
  referenceOxygenPercent = 13,
  oxygenInAir: OxygenInAir = 20.9,
): number {
  requireOxygen(oxygenPercent);
  requireOxygen(referenceOxygenPercent);
  return (concentration * (oxygenInAir - referenceOxygenPercent)) / (oxygenInAir - oxygenPercent);
}

/** Coefficients of the Siegert formula, loss % = ΔT·(a1/CO2 + b). */
export interface SiegertCoefficients {
  readonly a1: number;
  readonly b: number;
}

/**
 * Siegert coefficients by fuel, a1 from a published table of solid-fuel engineers (its b is zero for solid fuels). They
 * refer to the net heating value of fuel as fired at ordinary moisture; wet wood loses more, see
 * `siegertFromComposition`.
 */
export const SIEGERT: Readonly<Record<'dryWood' | 'peat' | 'bituminousCoal' | 'anthracite', SiegertCoefficients>> = {
  dryWood: { a1: 0.65, b: 0 },
  peat: { a1: 0.7, b: 0 },
  bituminousCoal: { a1: 0.672, b: 0 },
  anthracite: { a1: 0.683, b: 0 },
};

/**
 * Siegert's a1 from the fuel itself: 255·C/Q, C in per cent of the fuel and Q its net heating value in kJ/kg, both as
 * fired. Source: boiler operators' manual form of the formula. Wood of 50 % carbon and 19 MJ/kg gives 0.671.
 * @throws RangeError for carbon outside 1 to 100 % or a heating value outside 1 to 60 MJ/kg.
 */
export function siegertFromComposition(carbonPercent: number, netMJPerKg: number): SiegertCoefficients {
  requireWithin('The share of carbon', carbonPercent, 1, 100, '%');
  requireWithin('The net heating value', netMJPerKg, 1, 60, 'MJ/kg');
  return { a1: (255 * carbonPercent) / (netMJPerKg * 1000), b: 0 };
}

/**
 * Sensible heat lost with the flue gas, % of the net heat of the fuel (Siegert): (T_gas − T_air)·(a1/CO2 + b). Its
 * relative error is about a tenth (common practice, no source). Gas cooler than the air gives a negative loss, which is
 * a sign of wrong probes and is passed on as it is.
 * @param flueTempC temperature of the flue gas, −50 to 1300 °C
 * @param airTempC temperature of the air the fire draws, −60 to 60 °C
 * @param carbonDioxidePercent CO2 in dry flue gas, 0.5 to 21 %
 * @throws RangeError outside a range. Below 0.5 % CO2 the gas is air and the formula has no meaning.
 */
export function siegertStackLossPercent(
  flueTempC: number,
  airTempC: number,
  carbonDioxidePercent: number,
  { a1, b }: SiegertCoefficients = SIEGERT.dryWood,
): number {
  requireWithin('The temperature of the flue gas', flueTempC, -50, 1300, '°C');
  requireWithin('The temperature of the air', airTempC, -60, 60, '°C');
  requireWithin('CO2 in the dry flue gas', carbonDioxidePercent, 0.5, 21, '%');
  return (flueTempC - airTempC) * (a1 / carbonDioxidePercent + b);
}

import { if97LiquidEnthalpyJPerKg, if97LiquidSpecificHeatJPerKgK, if97LiquidVolumeM3PerKg } from './if97-liquid.ts';
import { if97VapourEnthalpyJPerKg } from './if97-vapour.ts';
import { requireWithin } from './range.ts';
import { saturationPressurePa } from './saturation-line.ts';
import { ZERO_CELSIUS_K } from './units.ts';

export { saturationPressurePa, saturationSlopePaPerK, saturationTempC } from './saturation-line.ts';

/**
 * Pure water in an open pot, 0 to 110 °C. One formulation throughout, IAPWS-IF97 (IAPWS R7-97(2012)), so that heat
 * content, density and heat of vaporisation agree with each other and with the boiling point.
 *
 * Liquid properties are taken at one standard atmosphere, or at the saturation pressure where the water would
 * otherwise be steam: at the lower pressure of a mountain bench the enthalpy changes by v·Δp, 20 J/kg for 20 kPa.
 */
const STANDARD_PRESSURE_PA = 101_325;
const LOWEST_C = 0;
const HIGHEST_C = 110;

function liquidPressurePa(tempC: number): number {
  requireWithin('The temperature of the water', tempC, LOWEST_C, HIGHEST_C, '°C');
  return Math.max(STANDARD_PRESSURE_PA, saturationPressurePa(tempC));
}

/**
 * Density of liquid water, kg/m³, 0 to 110 °C. Within 0.002 % (0.02 kg/m³) of IAPWS-95 and of measured densities. Air
 * dissolved in the water lowers it by at most 0.003 kg/m³ and is not included.
 * @throws RangeError outside the range.
 */
export function waterDensityKgPerM3(tempC: number): number {
  return 1 / if97LiquidVolumeM3PerKg(tempC + ZERO_CELSIUS_K, liquidPressurePa(tempC));
}

/**
 * Specific enthalpy of liquid water, J/kg, 0 to 110 °C. Only differences have a meaning: the heat taken up per kilogram
 * from T0 to T1 is h(T1) − h(T0).
 * @throws RangeError outside the range.
 */
export function waterEnthalpyJPerKg(tempC: number): number {
  return if97LiquidEnthalpyJPerKg(tempC + ZERO_CELSIUS_K, liquidPressurePa(tempC));
}

/**
 * Specific heat of liquid water at constant pressure, J/(kg·K), 0 to 110 °C. Within 0.1 %.
 * @throws RangeError outside the range.
 */
export function waterSpecificHeatJPerKgK(tempC: number): number {
  return if97LiquidSpecificHeatJPerKgK(tempC + ZERO_CELSIUS_K, liquidPressurePa(tempC));
}

/**
 * Heat of vaporisation of water at the temperature of the water, J/kg, 0 to 110 °C: enthalpy of saturated steam less
 * that of saturated liquid. An open pot evaporates below the boil too, at the heat for its own temperature.
 * @throws RangeError outside the range.
 */
export function vaporisationJPerKg(tempC: number): number {
  requireWithin('The temperature of the water', tempC, LOWEST_C, HIGHEST_C, '°C');
  const tempK = tempC + ZERO_CELSIUS_K;
  const pressurePa = saturationPressurePa(tempC);
  return if97VapourEnthalpyJPerKg(tempK, pressurePa) - if97LiquidEnthalpyJPerKg(tempK, pressurePa);
}

/**
 * Mass, kg, of `volumeL` litres of water read on the vessel's scale at `tempC`: 30 L read at 95 °C is 28.9 kg. The
 * growth of the vessel itself (0.3 % in volume for steel over 75 K) is not included.
 * @throws RangeError for a negative or infinite volume, or a temperature outside 0 to 110 °C.
 */
export function waterMassKg(volumeL: number, tempC: number): number {
  requireWithin('The volume of water', volumeL, 0, Number.POSITIVE_INFINITY, 'L');
  return (volumeL / 1000) * waterDensityKgPerM3(tempC);
}

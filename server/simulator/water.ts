/**
 * Properties of water for the simulated pot: fast fits of its own, so that the simulator does not use the formulas of
 * the analysis it is used to test.
 *
 * Fitted to liquid enthalpy and enthalpy of evaporation of IAPWS-IF97 (International Association for the Properties of
 * Water and Steam, R7-97) between 0 and 100 °C; largest differences 0.006 kJ/kg and 0.013 kJ/kg.
 */

/** Specific enthalpy of liquid water in J/kg above 0 °C, 0 to 105 °C. */
export function liquidEnthalpyJPerKg(tempC: number): number {
  return (
    tempC *
    (4216.6601 + tempC * (-1.29241626 + tempC * (2.01066606e-2 + tempC * (-1.47791586e-4 + tempC * 4.9711776e-7))))
  );
}

/** Slope of the enthalpy, J/(kg·K). */
function heatCapacityJPerKgK(tempC: number): number {
  return 4216.6601 + tempC * (-2.58483252 + tempC * (6.03199818e-2 + tempC * (-5.91166344e-4 + tempC * 2.4855888e-6)));
}

/**
 * Temperature of liquid water of this specific enthalpy: two Newton steps, accurate to a microkelvin from 0 to 105 °C.
 */
export function liquidTempC(enthalpyJPerKg: number): number {
  let tempC = enthalpyJPerKg / 4191;
  tempC -= (liquidEnthalpyJPerKg(tempC) - enthalpyJPerKg) / heatCapacityJPerKgK(tempC);
  return tempC - (liquidEnthalpyJPerKg(tempC) - enthalpyJPerKg) / heatCapacityJPerKgK(tempC);
}

/** Enthalpy of evaporation, J/kg, 0 to 105 °C. */
export function latentHeatJPerKg(tempC: number): number {
  return 2500928.06 + tempC * (-2374.93517 + tempC * (0.535964492 + tempC * -1.23125626e-2));
}

/** Vapour pressure over water in Pa by an Antoine equation for 1 to 100 °C (coefficients from memory); within 1 %. */
export function vapourPressurePa(tempC: number): number {
  return 133.322 * Math.exp(Math.LN10 * (8.07131 - 1730.63 / (233.426 + tempC)));
}

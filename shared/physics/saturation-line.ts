import { requireWithin } from './range.ts';
import { ZERO_CELSIUS_K } from './units.ts';

/**
 * The saturation line of water, IAPWS-IF97 region 4: pressure over a flat surface of pure water in equilibrium with its
 * own vapour. Stated error of the equation: 0.025 % in pressure, about 0.007 K at the boiling point.
 *
 * Source: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997, section 8, Table 34. Range:
 * 273.15 K to the critical point at 647.096 K (611.213 Pa to 22.064 MPa). Dissolved salts, detergent and dye raise the
 * boiling point and are not included.
 */
const N1 = 0.11670521452767e4;
const N2 = -0.72421316703206e6;
const N3 = -0.1707384694009e2;
const N4 = 0.1202082470247e5;
const N5 = -0.32325550322333e7;
const N6 = 0.1491510861353e2;
const N7 = -0.48232657361591e4;
const N8 = 0.40511340542057e6;
const N9 = -0.23855557567849;
const N10 = 0.65017534844798e3;

const LOWEST_TEMP_C = 0;
const HIGHEST_TEMP_C = 647.096 - ZERO_CELSIUS_K;
/** Saturation pressure at 273.15 K and at the critical point, the ends of the equation. */
const LOWEST_PRESSURE_PA = 611.212;
const HIGHEST_PRESSURE_PA = 22.0641e6;

/** Reduced pressure (p / 1 MPa)^¼ for a reduced temperature θ. */
function reducedPressure(theta: number): number {
  const a = theta * theta + N1 * theta + N2;
  const b = N3 * theta * theta + N4 * theta + N5;
  const c = N6 * theta * theta + N7 * theta + N8;
  return (2 * c) / (-b + Math.sqrt(b * b - 4 * a * c));
}

function reducedTemperature(tempK: number): number {
  return tempK + N9 / (tempK - N10);
}

/**
 * Saturation pressure of water, Pa, at `tempC`, 0 to 373.946 °C.
 * p = (2C / (−B + √(B² − 4AC)))⁴ MPa, IAPWS R7-97 equation 30.
 * @throws RangeError outside the range.
 */
export function saturationPressurePa(tempC: number): number {
  requireWithin('The temperature of saturated water', tempC, LOWEST_TEMP_C, HIGHEST_TEMP_C, '°C');
  const beta = reducedPressure(reducedTemperature(tempC + ZERO_CELSIUS_K));
  return beta * beta * beta * beta * 1e6;
}

/**
 * Temperature, °C, at which pure water boils under `pressurePa`, 611.212 Pa to 22.0641 MPa.
 * IAPWS R7-97 equation 31, the exact inverse of `saturationPressurePa` (both solve the same quadratic).
 * @throws RangeError outside the range.
 */
export function saturationTempC(pressurePa: number): number {
  requireWithin('The pressure of saturated water', pressurePa, LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA, 'Pa');
  const beta = Math.sqrt(Math.sqrt(pressurePa / 1e6));
  const e = beta * beta + N3 * beta + N6;
  const f = N1 * beta * beta + N4 * beta + N7;
  const g = N2 * beta * beta + N5 * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = N10 + d;
  return (sum - Math.sqrt(sum * sum - 4 * (N9 + N10 * d))) / 2 - ZERO_CELSIUS_K;
}

/**
 * Slope of the saturation line, Pa/K, at `tempC`, 0 to 373 °C: it converts an uncertainty of air pressure into one of
 * boiling point. Analytic: the implicit equation 29 of IAPWS R7-97 differentiated.
 * @throws RangeError outside the range.
 */
export function saturationSlopePaPerK(tempC: number): number {
  requireWithin('The temperature of saturated water', tempC, LOWEST_TEMP_C, 373, '°C');
  const tempK = tempC + ZERO_CELSIUS_K;
  const theta = reducedTemperature(tempK);
  const beta = reducedPressure(theta);
  const byTheta = 2 * theta * (beta * beta + N3 * beta + N6) + N1 * beta * beta + N4 * beta + N7;
  const byBeta = 2 * beta * (theta * theta + N1 * theta + N2) + N3 * theta * theta + N4 * theta + N5;
  const thetaSlopePerK = 1 - N9 / ((tempK - N10) * (tempK - N10));
  return 4 * beta * beta * beta * (-byTheta / byBeta) * thetaSlopePerK * 1e6;
}

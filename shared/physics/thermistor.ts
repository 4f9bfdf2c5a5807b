import { requirePositive, requireWithin } from './range.ts';
import { ZERO_CELSIUS_K } from './units.ts';

/**
 * Thermistors (NTC) by the Steinhart–Hart equation, 1/T = a + b·ln R + c·(ln R)³ (Steinhart and Hart, Deep-Sea Research
 * 15 (1968) 497–503), and by the simpler beta equation, R = R0·exp(β·(1/T − 1/T0)). Over 100 K from its calibration
 * points the first stays within some 0.02 K of a real part, the second is several kelvin off (from memory).
 * Range accepted: −80 to 300 °C and 0.1 Ω to 100 MΩ.
 */
export interface SteinhartHart {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export interface Beta {
  readonly betaK: number;
  readonly ohmAtReference: number;
  readonly referenceTempC: number;
}

export interface ThermistorPoint {
  readonly ohm: number;
  readonly tempC: number;
}

function requireOhm(ohm: number): void {
  requireWithin('The resistance of a thermistor', ohm, 0.1, 1e8, 'Ω');
}

function requireTemp(tempC: number): void {
  requireWithin('The temperature of a thermistor', tempC, -80, 300, '°C');
}

/** A result outside the accepted range means wrong coefficients or a broken probe, not a real temperature. */
function asTempC(inverseK: number): number {
  const tempC = 1 / inverseK - ZERO_CELSIUS_K;
  requireTemp(tempC);
  return tempC;
}

/**
 * Temperature, °C, from the resistance by the Steinhart–Hart equation.
 * @throws RangeError when the resistance or the computed temperature is outside the range accepted.
 */
export function steinhartHartTempC(ohm: number, { a, b, c }: SteinhartHart): number {
  requireOhm(ohm);
  const log = Math.log(ohm);
  return asTempC(a + b * log + c * log * log * log);
}

/**
 * Resistance, Ω, from the temperature: the one real root of the Steinhart–Hart cubic in ln R, refined by Newton's rule
 * because the closed form loses digits when c is small.
 * @throws RangeError when b is not above zero, c is below zero, or the temperature is outside the range accepted.
 */
export function steinhartHartOhm(tempC: number, { a, b, c }: SteinhartHart): number {
  requireTemp(tempC);
  requirePositive('Coefficient b', b, '1/K');
  requireWithin('Coefficient c', c, 0, Number.POSITIVE_INFINITY, '1/K');
  const constant = a - 1 / (tempC + ZERO_CELSIUS_K);
  let log = -constant / b;
  if (c > 0) {
    const half = constant / (2 * c);
    const root = Math.sqrt((b / (3 * c)) ** 3 + half * half);
    log = Math.cbrt(root - half) - Math.cbrt(root + half);
  }
  for (let step = 0; step < 4; step++) {
    log -= (constant + b * log + c * log * log * log) / (b + 3 * c * log * log);
  }
  return Math.exp(log);
}

/**
 * Steinhart–Hart coefficients through three calibration points, solved exactly.
 * @throws RangeError when the points are not three different resistances and temperatures.
 */
export function steinhartHartFromPoints(
  points: readonly [ThermistorPoint, ThermistorPoint, ThermistorPoint],
): SteinhartHart {
  for (const { ohm, tempC } of points) {
    requireOhm(ohm);
    requireTemp(tempC);
  }
  const [l1, l2, l3] = points.map(({ ohm }) => Math.log(ohm)) as [number, number, number];
  const [y1, y2, y3] = points.map(({ tempC }) => 1 / (tempC + ZERO_CELSIUS_K)) as [number, number, number];
  if (l1 === l2 || l2 === l3 || l1 === l3 || y1 === y2 || y2 === y3 || y1 === y3) {
    throw new RangeError('The three calibration points of a thermistor must differ in resistance and in temperature');
  }
  const slope2 = (y2 - y1) / (l2 - l1);
  const slope3 = (y3 - y1) / (l3 - l1);
  const c = (slope3 - slope2) / (l3 - l2) / (l1 + l2 + l3);
  const b = slope2 - c * (l1 * l1 + l1 * l2 + l2 * l2);
  return { a: y1 - l1 * (b + l1 * l1 * c), b, c };
}

/**
 * Temperature, °C, from the resistance by the beta equation.
 * @throws RangeError when the resistance, the coefficients or the computed temperature are outside the range accepted.
 */
export function betaTempC(ohm: number, { betaK, ohmAtReference, referenceTempC }: Beta): number {
  requireOhm(ohm);
  requireOhm(ohmAtReference);
  requireTemp(referenceTempC);
  requireWithin('The beta of a thermistor', betaK, 100, 20_000, 'K');
  return asTempC(1 / (referenceTempC + ZERO_CELSIUS_K) + Math.log(ohm / ohmAtReference) / betaK);
}

/**
 * Resistance, Ω, from the temperature by the beta equation.
 * @throws RangeError when the temperature or the coefficients are outside the range accepted.
 */
export function betaOhm(tempC: number, { betaK, ohmAtReference, referenceTempC }: Beta): number {
  requireTemp(tempC);
  requireOhm(ohmAtReference);
  requireTemp(referenceTempC);
  requireWithin('The beta of a thermistor', betaK, 100, 20_000, 'K');
  return ohmAtReference * Math.exp(betaK * (1 / (tempC + ZERO_CELSIUS_K) - 1 / (referenceTempC + ZERO_CELSIUS_K)));
}

/**
 * Beta, K, through two points: β = ln(R1/R2) / (1/T1 − 1/T2).
 * @throws RangeError when the two temperatures are the same or a value is outside the range accepted.
 */
export function betaFromPoints(first: ThermistorPoint, second: ThermistorPoint): number {
  for (const { ohm, tempC } of [first, second]) {
    requireOhm(ohm);
    requireTemp(tempC);
  }
  if (first.tempC === second.tempC) {
    throw new RangeError('The two points that give the beta of a thermistor must differ in temperature');
  }
  return Math.log(first.ohm / second.ohm) / (1 / (first.tempC + ZERO_CELSIUS_K) - 1 / (second.tempC + ZERO_CELSIUS_K));
}

import { requireWithin } from './range.ts';

/**
 * Platinum resistance probes (Pt100, Pt1000), IEC 60751: the Callendar–Van Dusen equation with the standard's
 * coefficients, mean temperature coefficient 0.00385 /K. It does not apply to probes made to the older 0.003916 /K
 * curve.
 *
 * R(t) = R0·(1 + A·t + B·t²) from 0 °C up, plus R0·C·(t − 100)·t³ below. Range −200 to 850 °C. Lead resistance is not
 * included: a two-wire Pt100 reads 2.6 K high for each ohm of leads.
 */
const A = 3.9083e-3;
const B = -5.775e-7;
const C = -4.183e-12;
const LOWEST_C = -200;
const HIGHEST_C = 850;

function ratio(tempC: number): number {
  const base = 1 + A * tempC + B * tempC * tempC;
  return tempC >= 0 ? base : base + C * (tempC - 100) * tempC * tempC * tempC;
}

function ratioSlope(tempC: number): number {
  const base = A + 2 * B * tempC;
  return tempC >= 0 ? base : base + C * (4 * tempC - 300) * tempC * tempC;
}

function requireNominal(nominalOhm: number): void {
  requireWithin('The resistance of the probe at 0 °C', nominalOhm, 1, 100_000, 'Ω');
}

/**
 * Resistance, Ω, of a platinum probe at `tempC`, −200 to 850 °C.
 * @param nominalOhm resistance at 0 °C: 100 for Pt100, 1000 for Pt1000
 * @throws RangeError outside the range.
 */
export function platinumOhm(tempC: number, nominalOhm = 100): number {
  requireNominal(nominalOhm);
  requireWithin('The temperature of a platinum probe', tempC, LOWEST_C, HIGHEST_C, '°C');
  return nominalOhm * ratio(tempC);
}

/** Sensitivity, Ω/K, of a platinum probe at `tempC`, −200 to 850 °C: the analytic derivative of `platinumOhm`. */
export function platinumSensitivityOhmPerK(tempC: number, nominalOhm = 100): number {
  requireNominal(nominalOhm);
  requireWithin('The temperature of a platinum probe', tempC, LOWEST_C, HIGHEST_C, '°C');
  return nominalOhm * ratioSlope(tempC);
}

/**
 * Temperature, °C, of a platinum probe from its resistance. Exact: the quadratic solved from 0 °C up, Newton's rule on
 * the full equation below.
 * @param nominalOhm resistance at 0 °C: 100 for Pt100, 1000 for Pt1000
 * @throws RangeError for a resistance that belongs to no temperature from −200 to 850 °C.
 */
export function platinumTempC(ohm: number, nominalOhm = 100): number {
  requireNominal(nominalOhm);
  const lowest = nominalOhm * ratio(LOWEST_C);
  const highest = nominalOhm * ratio(HIGHEST_C);
  requireWithin('The resistance of a platinum probe', ohm, lowest, highest, 'Ω');
  const wanted = ohm / nominalOhm;
  let tempC = (-A + Math.sqrt(A * A - 4 * B * (1 - wanted))) / (2 * B);
  if (wanted >= 1) return tempC;
  for (let step = 0; step < 10; step++) {
    const change = (ratio(tempC) - wanted) / ratioSlope(tempC);
    tempC -= change;
    if (Math.abs(change) < 1e-12) break;
  }
  return Math.max(LOWEST_C, tempC);
}

export type PlatinumToleranceClass = 'AA' | 'A' | 'B' | 'C';

/**
 * Tolerances of IEC 60751:2008, ±(fixed + share·|t|) K. Class C and the temperatures over which a wire-wound probe of
 * each class meets its tolerance are from memory; thin-film probes meet it over a smaller range (class B −50 to 500
 * °C).
 */
const TOLERANCES: Readonly<
  Record<PlatinumToleranceClass, { fixedK: number; share: number; fromC: number; toC: number }>
> = {
  AA: { fixedK: 0.1, share: 0.0017, fromC: -50, toC: 250 },
  A: { fixedK: 0.15, share: 0.002, fromC: -100, toC: 450 },
  B: { fixedK: 0.3, share: 0.005, fromC: -196, toC: 600 },
  C: { fixedK: 0.6, share: 0.01, fromC: -196, toC: 600 },
};

/**
 * Half-width, K, of the tolerance of a platinum probe of `toleranceClass` at `tempC`; `undefined` outside the
 * temperatures of the class.
 * @throws RangeError for a temperature outside the range of a platinum probe (−200 to 850 °C).
 */
export function platinumToleranceK(toleranceClass: PlatinumToleranceClass, tempC: number): number | undefined {
  requireWithin('The temperature of a platinum probe', tempC, LOWEST_C, HIGHEST_C, '°C');
  const { fixedK, share, fromC, toC } = TOLERANCES[toleranceClass];
  return tempC < fromC || tempC > toC ? undefined : fixedK + share * Math.abs(tempC);
}

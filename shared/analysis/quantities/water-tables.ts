/**
 * Heat content and heat of vaporisation of water, read from a table of exact values 0.25 K apart: a Monte Carlo run
 * needs them several hundred thousand times. Linear between entries; the error is at most 0.05 J/kg in 419,000.
 */
import { vaporisationJPerKg, waterEnthalpyJPerKg } from '../../physics/water.ts';

const LOW_C = 0;
const HIGH_C = 110;
const STEP_K = 0.25;
const ENTRIES = (HIGH_C - LOW_C) / STEP_K + 1;

const enthalpyMJ = table((tempC) => waterEnthalpyJPerKg(tempC) / 1e6);
const vaporisationMJ = table((tempC) => vaporisationJPerKg(tempC) / 1e6);

/** Enthalpy of liquid water, MJ/kg above 0 °C; extrapolated with the end slopes beyond 0 and 110 °C. */
export function waterMJPerKg(tempC: number): number {
  return look(enthalpyMJ, tempC);
}

/** Heat of vaporisation at the temperature of the water, MJ/kg. */
export function vapourMJPerKg(tempC: number): number {
  return look(vaporisationMJ, tempC);
}

function table(of: (tempC: number) => number): Float64Array {
  return Float64Array.from({ length: ENTRIES }, (_, index) => of(LOW_C + index * STEP_K));
}

function look(entries: Float64Array, tempC: number): number {
  const position = (tempC - LOW_C) / STEP_K;
  const index = Math.min(ENTRIES - 2, Math.max(0, Math.floor(position)));
  const low = entries[index]!;
  return low + (position - index) * (entries[index + 1]! - low);
}

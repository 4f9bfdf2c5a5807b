/** When the water evaporates: the relative rate of evaporation at the temperatures of one pot. */
import { saturationPressurePa } from '../../physics/saturation-line.ts';
import { firstIndexAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

/** Share of the air pressure at which the water counts as boiling fully. */
const FULL_BOIL = 0.995;
/** About how many points of a burn are evaluated. */
const PLACES = 500;

/**
 * ln(1/(1 − p/P)): the rate of evaporation through still air at pressure P (Stefan flow; R. B. Bird, W. E. Stewart, E. N. Lightfoot,
 * Transport Phenomena, section 18.2, from memory). It grows steeply towards the boil, as boiling away does.
 * @param airPa air pressure, Pa: the saturation pressure at the local boiling point
 */
function evaporationWeight(tempC: number, airPa: number): number {
  return -Math.log(1 - Math.min(FULL_BOIL, saturationPressurePa(tempC) / airPa));
}

/** Returns the sum of the weights, and of the temperatures times their weights, between two moments. */
function weigh(
  { timeS, tempC }: WaterCurve,
  fromS: number,
  toS: number,
  boilingC: number,
): { weights: number; sum: number } {
  const airPa = saturationPressurePa(boilingC);
  const stride = Math.max(1, Math.floor(timeS.length / PLACES));
  let weights = 0;
  let sum = 0;
  for (let index = firstIndexAtOrAfter(timeS, fromS); index < timeS.length && timeS[index]! <= toS; index += stride) {
    const here = tempC[index]!;
    if (!(here > 0 && here < 120)) continue;
    const weight = evaporationWeight(here, airPa);
    weights += weight;
    sum += weight * here;
  }
  return { weights, sum };
}

/** Returns the mean temperature at which the water evaporated, as read; `undefined` without readings. */
export function evaporationTempC(water: WaterCurve, fromS: number, toS: number, boilingC: number): number | undefined {
  const { weights, sum } = weigh(water, fromS, toS, boilingC);
  return weights > 0 ? sum / weights : undefined;
}

/** Returns the share of the water evaporated between two moments that left in a part of that time, 0 to 1. */
export function evaporatedShare(
  water: WaterCurve,
  part: { fromS: number; toS: number },
  whole: { fromS: number; toS: number },
  boilingC: number,
): number {
  const all = weigh(water, whole.fromS, whole.toS, boilingC).weights;
  return all > 0 ? Math.min(1, weigh(water, part.fromS, part.toS, boilingC).weights / all) : 0;
}

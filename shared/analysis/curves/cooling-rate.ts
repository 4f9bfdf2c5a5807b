/**
 * Fits the rate at which water cools towards its surroundings, by Newton's law of cooling: the excess falls as
 * exp(−k·t).
 */
import { LEAST_COOLING_K, SHORTEST_COOLING_S } from './cooling-limits.ts';
import { firstIndexAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';

export interface CoolingRate {
  readonly ratePerS: number;
  /** Of the rate: from the noise of the readings, and from the difference of the rates of the two halves. */
  readonly standardUncertainty: number;
  /** Change of the rate for surroundings one kelvin warmer. */
  readonly perKelvin: number;
  /** Temperature drop from the first reading to the last. */
  readonly fellK: number;
}

const LEAST_READINGS = 6;

/**
 * Least squares of the logarithm of the excess over the surroundings.
 * @param surroundingsC on the scale of the readings
 * @returns undefined where the stretch is too short, has too few readings, or the water cooled too little
 */
export function coolingRate(
  water: Pick<WaterCurve, 'timeS' | 'tempC' | 'noiseK'>,
  fromS: number,
  toS: number,
  surroundingsC: number,
): CoolingRate | undefined {
  const timeS: number[] = [];
  const tempC: number[] = [];
  for (let index = firstIndexAtOrAfter(water.timeS, fromS); index < water.timeS.length; index++) {
    if (water.timeS[index]! > toS) break;
    if (!(water.tempC[index]! > surroundingsC + 1)) continue;
    timeS.push(water.timeS[index]! - fromS);
    tempC.push(water.tempC[index]!);
  }
  const last = timeS.length - 1;
  if (last + 1 < LEAST_READINGS || timeS[last]! - timeS[0]! < SHORTEST_COOLING_S) return undefined;
  if (tempC[0]! - tempC[last]! < LEAST_COOLING_K) return undefined;
  const fitAbove = (from: number, to: number, aboveC: number) => rateOf(timeS, tempC, from, to, aboveC);
  const whole = fitAbove(0, last, surroundingsC);
  const half = last >> 1;
  const halvesDifference = Math.abs(
    fitAbove(0, half, surroundingsC).ratePerS - fitAbove(half, last, surroundingsC).ratePerS,
  );
  const meanC = tempC.reduce((sum, value) => sum + value, 0) / tempC.length;
  const fromNoise = water.noiseK / (meanC - surroundingsC) / Math.sqrt(whole.spread);
  return {
    ratePerS: whole.ratePerS,
    standardUncertainty: Math.hypot(fromNoise, halvesDifference / Math.sqrt(12)),
    fellK: tempC[0]! - tempC[last]!,
    perKelvin: fitAbove(0, last, surroundingsC + 0.5).ratePerS - fitAbove(0, last, surroundingsC - 0.5).ratePerS,
  };
}

function rateOf(
  timeS: readonly number[],
  tempC: readonly number[],
  from: number,
  to: number,
  surroundingsC: number,
): { ratePerS: number; spread: number } {
  let count = 0;
  let sumT = 0;
  let sumY = 0;
  let sumTT = 0;
  let sumTY = 0;
  for (let index = from; index <= to; index++) {
    const t = timeS[index]!;
    const y = Math.log(tempC[index]! - surroundingsC);
    count += 1;
    sumT += t;
    sumY += y;
    sumTT += t * t;
    sumTY += t * y;
  }
  const spread = sumTT - (sumT * sumT) / count;
  return { ratePerS: -(sumTY - (sumT * sumY) / count) / spread, spread };
}
